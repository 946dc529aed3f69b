#include "analyzer/drills/habits.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

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

/// A gap, if the solo has it.
using FindGap = std::optional<Gap> (*)(const Analysis&, const DrillSettings&);

std::optional<Gap> never_down(const Analysis& analysis, const DrillSettings& settings) {
  const Summary& summary = analysis.summary;
  if (summary.arpeggios_descending > 0) return std::nullopt;
  Gap gap{fmt::format("No arpeggio comes down ({} go up).", summary.arpeggios_ascending),
          "every chord straight down from above", settings};
  gap.drill.kind = DrillKind::arpeggios;
  gap.drill.way = Way::down;
  return gap;
}

std::optional<Gap> never_straight_down(const Analysis& analysis, const DrillSettings& settings) {
  const Summary& summary = analysis.summary;
  if (summary.arpeggios_descending == 0 || summary.straight_descents > 0) return std::nullopt;
  Gap gap{fmt::format("None of the {} descents comes straight down: each follows a climb through the same chord.",
                      summary.arpeggios_descending),
          "every chord straight down from above", settings};
  gap.drill.kind = DrillKind::arpeggios;
  gap.drill.way = Way::down;
  return gap;
}

std::optional<Gap> never_down_from_seventh(const Analysis& analysis, const DrillSettings& settings) {
  if (analysis.summary.arpeggios_descending == 0 || descents_from(analysis, 7) > 0) return std::nullopt;
  Gap gap{fmt::format("None of {} descents starts from the seventh.", analysis.summary.arpeggios_descending),
          "every chord down from its seventh", settings};
  gap.drill.kind = DrillKind::arpeggios;
  gap.drill.way = Way::down;
  gap.drill.from_tone = 7;
  return gap;
}

std::optional<Gap> thirds_missing(const Analysis& analysis, const DrillSettings& settings) {
  constexpr int of_ten = 7;
  const Share& given = analysis.summary.thirds_given;
  if (given.of == 0 || given.count * 10 >= given.of * of_ten) return std::nullopt;
  Gap gap{fmt::format("Only {} of {} chords get their third.", given.count, given.of), "every chord up from its third",
          settings};
  gap.drill.kind = DrillKind::arpeggios;
  gap.drill.way = Way::up;
  gap.drill.from_tone = 3;
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
  if (unused == all.end() || analysis.arpeggios.empty()) return std::nullopt;
  Gap gap{fmt::format("None of {} arpeggios is in {}.", analysis.arpeggios.size(), unused->words),
          fmt::format("every chord in {}", unused->words), settings};
  gap.drill.kind = DrillKind::arpeggios;
  gap.drill.inversion = unused->inversion;
  return gap;
}

std::optional<Gap> nearest_avoided(const Analysis& analysis, const DrillSettings& settings) {
  const Share& taken = analysis.summary.nearest_taken_share;
  if (taken.of == 0 || taken.count * 2 >= taken.of) return std::nullopt;
  Gap gap{fmt::format("The nearest tone is taken at {} of {} changes.", taken.count, taken.of),
          "a line that takes the nearest tone at every change", settings};
  gap.drill.kind = DrillKind::nearest_tones;
  return gap;
}

std::optional<Gap> common_tones_avoided(const Analysis& analysis, const DrillSettings& settings) {
  const auto found = analysis.summary.connections_by_kind.find(ConnectionKind::common_tone);
  if (analysis.connections.empty() || (found != analysis.summary.connections_by_kind.end() && found->second > 0))
    return std::nullopt;
  Gap gap{fmt::format("No common tone is kept at any of {} changes.", analysis.connections.size()),
          "a line that keeps common tones", settings};
  gap.drill.kind = DrillKind::common_tones;
  return gap;
}

constexpr std::array<FindGap, 7> gap_table{&never_down,          &never_down_from_seventh, &never_straight_down,
                                           &thirds_missing,      &inversion_unused,        &nearest_avoided,
                                           &common_tones_avoided};

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

std::vector<Gap> gaps_of(const Analysis& analysis, const DrillSettings& settings) {
  std::vector<Gap> gaps;
  for (const FindGap find : gap_table)
    if (auto gap = find(analysis, settings)) gaps.push_back(*std::move(gap));
  return gaps;
}

}  // namespace insideline
