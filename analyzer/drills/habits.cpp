#include "analyzer/drills/habits.hpp"

#include "analyzer/measures/proportion.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <functional>
#include <string_view>
#include <utility>

namespace insideline {
namespace {

constexpr std::size_t most_cells = 3;

bool has_one_way(const Cell& cell) { return cell.direction != Direction::mixed; }

/// The solo's cells by number alone: b3-5-b7 and 3-5-7 are both 3-5-7.
struct Counted {
  std::vector<int> numbers;
  Direction direction = Direction::mixed;
  int count = 0;
};

std::vector<Counted> cells_by_number(const Analysis& analysis, std::size_t size) {
  std::vector<Counted> all;
  for (const Cell& cell : analysis.cells) {
    if (cell.degrees.size() != size || !has_one_way(cell)) continue;
    std::vector<int> numbers;
    for (const Degree& degree : cell.degrees) numbers.push_back(degree.number);
    const auto same = std::ranges::find_if(
        all, [&](const Counted& one) { return one.numbers == numbers && one.direction == cell.direction; });
    if (same == all.end())
      all.push_back({numbers, cell.direction, cell.count});
    else
      same->count += cell.count;
  }
  std::ranges::stable_sort(all, [](const Counted& a, const Counted& b) { return a.count > b.count; });
  return all;
}

DrillCell cell_of(const Counted& counted) {
  DrillCell cell;
  for (const int number : counted.numbers) cell.tones.push_back({{number, 0}, false});
  cell.way = counted.direction == Direction::ascending ? Way::up : Way::down;
  return cell;
}

std::string in_words(const Counted& counted) {
  std::string text;
  for (const int number : counted.numbers) text += (text.empty() ? "" : "-") + std::to_string(number);
  return fmt::format("{} {} ({})", text, counted.direction == Direction::ascending ? "up" : "down", counted.count);
}

int descents_from(const Analysis& analysis, int number) {
  int count = 0;
  for (const Arpeggio& arpeggio : analysis.arpeggios)
    for (const Leg& leg : arpeggio.legs)
      if (leg.direction == Direction::descending && arpeggio.degrees[leg.first].number == number) ++count;
  return count;
}

int in_inversion(const Analysis& analysis, Inversion inversion) {
  return static_cast<int>(std::ranges::count(analysis.arpeggios, inversion, &Arpeggio::inversion));
}

/// Chances that make a gap; from fewer, that something never happens says nothing. Our choice, without a source.
constexpr int fewest_chances = 8;

/// A gap, if the solo has it.
using FindGap = std::optional<Gap> (*)(const Analysis&, const DrillSettings&);

Gap every_chord_down(std::string sentence, const DrillSettings& settings) {
  Gap gap{std::move(sentence), "every chord straight down from above", settings};
  gap.drill.kind = DrillKind::arpeggios;
  gap.drill.way = Way::down;
  return gap;
}

std::optional<Gap> never_down(const Analysis& analysis, const DrillSettings& settings) {
  const Summary& summary = analysis.summary;
  if (summary.arpeggios_descending > 0 || summary.arpeggios_ascending < fewest_chances) return std::nullopt;
  return every_chord_down(fmt::format("No arpeggio comes down ({} go up).", summary.arpeggios_ascending), settings);
}

std::optional<Gap> never_straight_down(const Analysis& analysis, const DrillSettings& settings) {
  const Summary& summary = analysis.summary;
  if (summary.arpeggios_descending < fewest_chances || summary.straight_descents > 0) return std::nullopt;
  return every_chord_down(
      fmt::format("None of the {} descents comes straight down: each follows a climb through the same chord.",
                  summary.arpeggios_descending),
      settings);
}

std::optional<Gap> never_down_from_seventh(const Analysis& analysis, const DrillSettings& settings) {
  if (analysis.summary.arpeggios_descending < fewest_chances || descents_from(analysis, 7) > 0) return std::nullopt;
  Gap gap = every_chord_down(
      fmt::format("None of {} descents starts from the seventh.", analysis.summary.arpeggios_descending), settings);
  gap.exercise = "every chord down from its seventh";
  gap.drill.from_tone = 7;
  return gap;
}

std::optional<Gap> guide_tones_never_led(const Analysis& analysis, const DrillSettings& settings) {
  const Share& led = analysis.summary.guide_tone_resolutions;
  if (led.of < fewest_chances || led.count > 0) return std::nullopt;
  Gap gap{fmt::format("None of {} connections leads or keeps a guide tone.", led.of), "a guide-tone line", settings};
  gap.drill.kind = DrillKind::guide_tones;
  return gap;
}

std::optional<Gap> inversion_unused(const Analysis& analysis, const DrillSettings& settings) {
  struct Named {
    Inversion inversion;
    std::string_view words;
  };
  static constexpr std::array all{
      Named{Inversion::first, "first inversion"}, Named{Inversion::second, "second inversion"},
      Named{Inversion::third, "third inversion"}, Named{Inversion::root_position, "root position"}};
  const auto* const unused =
      std::ranges::find_if(all, [&](const Named& named) { return in_inversion(analysis, named.inversion) == 0; });
  if (unused == all.end() || analysis.arpeggios.size() < static_cast<std::size_t>(fewest_chances)) return std::nullopt;
  Gap gap{fmt::format("None of {} arpeggios is in {}.", analysis.arpeggios.size(), unused->words),
          fmt::format("every chord in {}", unused->words), settings};
  gap.drill.kind = DrillKind::arpeggios;
  gap.drill.inversion = unused->inversion;
  return gap;
}

int connected_changes(const Summary& summary) {
  int changes = 0;
  for (const auto& [kind, count] : summary.connections_by_kind)
    if (kind != ConnectionKind::none) changes += count;
  return changes;
}

Share kept_common_tones(const Summary& summary) {
  const auto found = summary.connections_by_kind.find(ConnectionKind::common_tone);
  return {found == summary.connections_by_kind.end() ? 0 : found->second, connected_changes(summary)};
}

std::optional<Gap> common_tones_avoided(const Analysis& analysis, const DrillSettings& settings) {
  const Share kept = kept_common_tones(analysis.summary);
  if (kept.of < fewest_chances || kept.count > 0) return std::nullopt;
  Gap gap{fmt::format("No common tone is kept at any of {} changes.", kept.of), "a line that keeps common tones",
          settings};
  gap.drill.kind = DrillKind::common_tones;
  return gap;
}

/// What may never happen; `figure` is the share that is then 0, where one is held against what is usual.
struct NeverRow {
  FindGap find;
  std::string_view figure;  ///< FigureRow::key
};

constexpr std::array never_table{NeverRow{&never_down, "arpeggios_down"},
                                 NeverRow{&guide_tones_never_led, "guide_tone_resolutions"},
                                 NeverRow{&never_straight_down, "straight_descents"},
                                 NeverRow{&common_tones_avoided, "crossed_by_common_tone"},
                                 NeverRow{&never_down_from_seventh, ""},
                                 NeverRow{&inversion_unused, ""}};

/// A share that is held against what is usual, and what practises it.
struct ShareRow {
  std::string_view figure;  ///< FigureRow::key
  std::string_view words;   ///< behind "3 of 24"
  std::string_view exercise;
  Share (*share)(const Summary&);
  void (*practise)(DrillSettings&);
};

constexpr std::array share_table{
    ShareRow{"arpeggio_notes", "notes belong to an arpeggio", "every chord up from below",
             [](const Summary& summary) { return summary.arpeggio_share; },
             [](DrillSettings& drill) {
               drill.kind = DrillKind::arpeggios;
               drill.way = Way::up;
             }},
    ShareRow{"thirds_given", "chords get their third", "every chord up from its third",
             [](const Summary& summary) { return summary.thirds_given; },
             [](DrillSettings& drill) {
               drill.kind = DrillKind::arpeggios;
               drill.way = Way::up;
               drill.from_tone = 3;
             }},
    ShareRow{"sevenths_given", "chords get their seventh", "third and seventh of every chord as guide tones",
             [](const Summary& summary) { return summary.sevenths_given; },
             [](DrillSettings& drill) {
               drill.kind = DrillKind::guide_tones;
               drill.voices = 2;
             }},
    ShareRow{"guide_tone_resolutions", "connections lead or keep a guide tone", "a guide-tone line",
             [](const Summary& summary) { return summary.guide_tone_resolutions; },
             [](DrillSettings& drill) { drill.kind = DrillKind::guide_tones; }},
    ShareRow{"arpeggios_down", "arpeggios come down", "every chord straight down from above",
             [](const Summary& summary) {
               return Share{summary.arpeggios_descending, summary.arpeggios_ascending + summary.arpeggios_descending};
             },
             [](DrillSettings& drill) {
               drill.kind = DrillKind::arpeggios;
               drill.way = Way::down;
             }},
    ShareRow{"straight_descents", "descents come straight down", "every chord straight down into the next",
             [](const Summary& summary) {
               return Share{summary.straight_descents, summary.arpeggios_descending};
             },
             [](DrillSettings& drill) { drill.kind = DrillKind::descents; }},
    ShareRow{"nearest_taken", "changes take the nearest tone", "a line that takes the nearest tone at every change",
             [](const Summary& summary) { return summary.nearest_taken_share; },
             [](DrillSettings& drill) { drill.kind = DrillKind::nearest_tones; }},
    ShareRow{"crossed_by_common_tone", "changes keep a common tone", "a line that keeps common tones",
             kept_common_tones, [](DrillSettings& drill) { drill.kind = DrillKind::common_tones; }},
};

int in_percent(double share) { return static_cast<int>(std::lround(share * 100.0)); }

/// "3 of 24 connections lead or keep a guide tone (12 %, surely under 32 %); usual are 46 %, the median of ...".
std::string far_below_sentence(const ShareRow& row, const Share& share, const UsualShare& usual) {
  return fmt::format("{} of {} {} ({} %, surely under {} %); usual is {} %, {}.", share.count, share.of, row.words,
                     in_percent(*ratio(share)), in_percent(wilson_interval(share)->high), in_percent(usual.share),
                     usual.where);
}

/// Whether one of the gaps found says so already.
bool is_told(const std::vector<Gap>& gaps, const DrillSettings& drill) {
  return std::ranges::any_of(gaps, [&](const Gap& gap) {
    return gap.drill.kind == drill.kind && gap.drill.way == drill.way && gap.drill.from_tone == drill.from_tone &&
           !gap.drill.inversion;
  });
}

}  // namespace

Habits take_habits(const Analysis& analysis, DrillSettings& settings) {
  Habits habits;
  std::vector<Counted> cells = cells_by_number(analysis, 3);
  if (cells.empty()) cells = cells_by_number(analysis, 2);
  if (cells.empty()) {
    habits.sentences.emplace_back("The solo has no two chord tones side by side; a plain line is set instead.");
  } else {
    cells.resize(std::min(cells.size(), most_cells));
    settings.kind = DrillKind::cells;
    settings.cells.clear();
    std::string named;
    for (const Counted& counted : cells) {
      settings.cells.push_back(cell_of(counted));
      named += (named.empty() ? "" : ", ") + in_words(counted);
    }
    habits.sentences.push_back(fmt::format("Its most frequent cells are taken over: {}.", named));
  }
  int connections = 0;
  for (const auto& [kind, count] : analysis.summary.connections_by_kind)
    if (kind != ConnectionKind::none) connections += count;
  if (connections == 0) return habits;
  std::string named;
  for (const auto& [kind, count] : analysis.summary.connections_by_kind) {
    if (kind == ConnectionKind::none) continue;
    settings.connection_habits[kind] = static_cast<double>(count) / connections;
    named += fmt::format("{}{} {}", named.empty() ? "" : ", ", to_string(kind), count);
  }
  habits.sentences.push_back(fmt::format("It connects the chords by: {}.", named));
  return habits;
}

bool is_long_enough(const Analysis& analysis) {
  constexpr int fewest_notes = 30;
  constexpr std::size_t fewest_changes = 8;
  return analysis.summary.notes >= fewest_notes && analysis.connections.size() >= fewest_changes;
}

std::vector<Gap> gaps_of(const Analysis& analysis, const DrillSettings& settings,
                         const std::vector<UsualShare>& usual) {
  struct Found {
    Gap gap;
    double below = 0.0;  // the usual share less that of the solo
  };
  std::vector<Found> found;
  const auto usual_of = [&](std::string_view figure) {
    const auto held_against = std::ranges::find(usual, figure, &UsualShare::figure);
    return held_against == usual.end() ? nullptr : &*held_against;
  };
  for (const NeverRow& row : never_table)
    if (auto gap = row.find(analysis, settings)) {
      const UsualShare* held_against = usual_of(row.figure);
      found.push_back({*std::move(gap), held_against == nullptr ? 0.0 : held_against->share});
    }
  for (const ShareRow& row : share_table) {
    const UsualShare* held_against = usual_of(row.figure);
    const Share share = row.share(analysis.summary);
    if (held_against == nullptr || share.of < fewest_chances || !is_far_below(share, held_against->share)) continue;
    Gap gap{far_below_sentence(row, share, *held_against), std::string(row.exercise), settings};
    row.practise(gap.drill);
    found.push_back({std::move(gap), held_against->share - *ratio(share)});
  }
  std::ranges::stable_sort(found, std::ranges::greater{}, &Found::below);
  std::vector<Gap> gaps;
  for (Found& one : found)
    if (!is_told(gaps, one.gap.drill)) gaps.push_back(std::move(one.gap));
  return gaps;
}

}  // namespace insideline
