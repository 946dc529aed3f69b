// How the line moves: through the chords, at the changes, early and late.
#include "analyzer/placement_when_struck.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/remarks.hpp"
#include "reports/text/wording.hpp"

#include "reports/tallies.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <initializer_list>
#include <span>
#include <utility>

namespace insideline::reports {
namespace {

constexpr std::size_t fewest_shapes = 2;
constexpr std::size_t most_borrowed = 4;

std::string times(std::size_t count) {
  if (count == 1) return "once";
  return count == 2 ? "twice" : fmt::format("{} times", count);
}

int bar_of_note(const Report& report, std::size_t note) {
  return report.solo.bars[bar_index_at(report.solo, report.solo.notes[note].onset)].number;
}

std::string direction_of_one(const Summary& summary) {
  const bool down = summary.arpeggios_descending > 0;
  if (summary.arpeggios_ascending == 0 && !down) return "It turns without going either way.";
  if (summary.arpeggios_two_way > 0) return "It runs both ways.";
  if (summary.arpeggios_mixed > 0) return "It turns without going both ways.";
  if (!down) return "It runs up.";
  return summary.straight_descents > 0 ? "It runs straight down." : "It runs down.";
}

std::string directions(const Summary& summary) {
  if (summary.arpeggios == 1) return direction_of_one(summary);
  std::vector<std::string> ways;
  if (summary.arpeggios_ascending > 0) ways.push_back(fmt::format("{} up", summary.arpeggios_ascending));
  if (summary.arpeggios_descending > 0) ways.push_back(fmt::format("{} down", summary.arpeggios_descending));
  std::string text = ways.empty() ? "" : fmt::format("Leg by leg they run {}.", listed(ways));
  if (summary.straight_descents > 0)
    text += fmt::format(" {} of the legs down {} straight down.", summary.straight_descents,
                        agreeing(summary.straight_descents, "comes", "come"));
  if (summary.arpeggios_two_way > 0)
    text += fmt::format(" {} {} both ways.", counted(summary.arpeggios_two_way, "arpeggio"),
                        agreeing(summary.arpeggios_two_way, "goes", "go"));
  const int turning = summary.arpeggios_mixed - summary.arpeggios_two_way;
  if (turning > 0) text += fmt::format(" {} {} without going both ways.", turning, agreeing(turning, "turns", "turn"));
  return text;
}

/// The shapes that come more than once, and two at least; the others in one sentence.
void add_shapes(const Report& report, std::vector<Remark>& remarks) {
  const std::vector<Tally> found = arpeggio_shapes(report.analysis.arpeggios);
  std::vector<std::string> once;
  for (std::size_t i = 0; i < found.size(); ++i) {
    const Tally& shape = found[i];
    std::vector<int> bars;
    for (const std::size_t arpeggio : shape.where)
      bars.push_back(bar_of_note(report, report.analysis.arpeggios[arpeggio].notes.front()));
    if (i >= fewest_shapes && shape.where.size() == 1) {
      once.push_back(fmt::format("{} ({})", shape.name, in_bars(std::move(bars))));
      continue;
    }
    const auto count = static_cast<int>(shape.where.size());
    remarks.emplace_back(CountRow{.name = shape.name,
                                  .share = {count, report.analysis.summary.arpeggios},
                                  .beside = in_bars(std::move(bars), Length::whole)});
  }
  if (!once.empty()) remarks.emplace_back(fmt::format("Once: {}.", listed(once)));
}

std::string inversions_and_borrowed(const Report& report, Length length) {
  std::vector<std::string> items;
  for (const Tally& tally : arpeggio_inversions(report.analysis.arpeggios))
    items.push_back(fmt::format("{} {}", tally.name, tally.where.size()));
  std::string text = fmt::format("By the lowest note: {}.", listed(items));
  items.clear();
  const std::vector<Tally> borrowed = borrowed_chords(report.analysis);
  const bool all_named = length == Length::whole || borrowed.size() <= most_borrowed + 1;
  const std::size_t named = all_named ? borrowed.size() : most_borrowed;
  for (const Tally& tally : std::span(borrowed).first(named))
    items.push_back(fmt::format("{} ({})", tally.name, times(tally.where.size())));
  if (!all_named) items.push_back(fmt::format("{} more", borrowed.size() - named));
  if (!items.empty()) text += fmt::format(" Notes that spell another chord than the one below: {}.", listed(items));
  return text;
}

/// True where a sixth is counted among the sevenths.
bool sixths_count(const Report& report) {
  return std::ranges::any_of(report.analysis.outline.chords, [&](const ChordOutline& row) {
    return row.notes > 0 && row.has_seventh && seventh_of(report.analysis.harmony.chords[row.chord].chord)->number == 6;
  });
}

enum class GuideTone : std::uint8_t { led, late, kept };

GuideTone way_led(const Connection& connection) {
  if (connection.late) return GuideTone::late;
  return connection.kind == ConnectionKind::common_tone ? GuideTone::kept : GuideTone::led;
}

/// The bars in which the new chords arrive.
std::vector<int> bars_with(const Report& report, std::initializer_list<GuideTone> ways) {
  std::vector<int> bars;
  for (const Connection& connection : report.analysis.connections) {
    if (!leads_guide_tone(connection) || std::ranges::find(ways, way_led(connection)) == ways.end()) continue;
    const Beats onset = report.analysis.harmony.chords[connection.to_chord].onset;
    bars.push_back(report.solo.bars[bar_index_at(report.solo, onset)].number);
  }
  return bars;
}

std::string guide_tones_led(const Report& report, Length length) {
  const Summary& summary = report.analysis.summary;
  const Share led{summary.guide_tone_resolutions.count - summary.guide_tones_kept, summary.guide_tone_resolutions.of};
  if (led.of == 0) return "";
  const std::vector<int> bars = bars_with(report, {GuideTone::led, GuideTone::late});
  std::string text =
      fmt::format("{} {} a guide tone home, seventh to third or third to seventh{}. ", share_text(led, "connection"),
                  agreeing(led.count, "leads", "lead"), bars.empty() ? "" : ": into " + in_bars(bars, length));
  if (const int late = summary.guide_tones_late; late > 0)
    text += fmt::format("{} of them {} late, by way of other notes: into {}. ", late,
                        agreeing(late, "arrives", "arrive"), in_bars(bars_with(report, {GuideTone::late}), length));
  return text;
}

std::string guide_tones_kept(const Report& report, Length length) {
  const int kept = report.analysis.summary.guide_tones_kept;
  if (kept == 0) return "";
  return fmt::format("{} {} a tone that is third of one chord and seventh of the other: into {}. ", kept,
                     agreeing(kept, "keeps", "keep"), in_bars(bars_with(report, {GuideTone::kept}), length));
}

std::string threads(const std::vector<Thread>& threads) {
  std::string text;
  for (const Thread& thread : threads) {
    if (thread.notes.size() < 2) continue;
    const std::string where = threads.size() == 1 ? "" : fmt::format("In chorus {}: ", thread.chorus);
    text += fmt::format("{}{} in all over {} of {}, where {} would be possible", where,
                        counted(thread.semitones, "semitone"), thread.notes.size(), counted(thread.chords, "chord"),
                        thread.least_possible);
    if (thread.by_chance)
      text += fmt::format(" and {:.0f} usual over the changes shifted by whole bars", *thread.by_chance);
    text += ". ";
  }
  if (text.empty()) return text;
  return "Of the tones played, one a chord is taken so that the way from chord to chord is shortest: the shorter it "
         "is, in "
         "semitones, the closer the line leads the chords. " +
         text;
}

/// With the bar before or after it, where the figure begins or ends there. Longer ones are shown by their bar alone.
ShownBar shown_bars(const Report& report, const TellingBar& bar, std::size_t index) {
  const auto bar_of = [&](std::size_t note) { return bar_index_at(report.solo, report.solo.notes[note].onset); };
  const std::size_t first = bar_of(bar.first_note);
  const std::size_t last = bar_of(bar.last_note);
  return last == first + 1 && (first == index || last == index) ? ShownBar{first, last} : ShownBar{index, index};
}

}  // namespace

RemarkSection arpeggio_remarks(const Report& report, Length length) {
  const Summary& summary = report.analysis.summary;
  RemarkSection section{"Arpeggios", {}};
  if (summary.arpeggios == 0) {
    section.remarks = {"The line nowhere plays three tones of one chord in a row."};
    return section;
  }
  std::string share = fmt::format("{} belong to {}", share_text(summary.arpeggio_share, "note"),
                                  counted(summary.arpeggios, "arpeggio"));
  if (summary.arpeggio_share_by_duration)
    share += fmt::format(", {} of the time played", percent(*summary.arpeggio_share_by_duration));
  section.remarks.emplace_back(share + ". " + directions(summary));
  section.remarks.emplace_back(inversions_and_borrowed(report, length));
  return section;
}

RemarkSection arpeggio_shape_remarks(const Report& report) {
  RemarkSection section{"The shapes of the arpeggios", {}};
  add_shapes(report, section.remarks);
  return section;
}

RemarkSection thread_remarks(const Report& report) {
  RemarkSection section{"The smoothest thread", {}};
  if (std::string smoothest = threads(report.analysis.threads); !smoothest.empty())
    section.remarks.emplace_back(std::move(smoothest));
  return section;
}

RemarkSection connection_remarks(const Report& report) {
  const Summary& summary = report.analysis.summary;
  RemarkSection section{"Connections", {}};
  if (summary.connections == 0) {
    section.remarks = {"The chord never changes under this line."};
    return section;
  }
  section.remarks.emplace_back(fmt::format("The chord changes {}. The line connects the chords",
                                           times(static_cast<std::size_t>(summary.connections))));
  for (const auto& [kind, count] : summary.connections_by_kind) {
    if (count == 0) continue;
    const std::string name = kind == ConnectionKind::none ? "not at all (rest)" : "by " + to_string(kind);
    section.remarks.emplace_back(CountRow{.name = name, .share = {count, summary.connections}});
  }
  if (summary.nearest_taken_share.of > 0)
    section.remarks.emplace_back(fmt::format("{} {} the nearest tone of the next chord, or a common one.",
                                             share_text(summary.nearest_taken_share, "connection"),
                                             agreeing(summary.nearest_taken_share.count, "takes", "take")));
  return section;
}

RemarkSection guide_tone_remarks(const Report& report, Length length) {
  const Summary& summary = report.analysis.summary;
  const Outline& outline = report.analysis.outline;
  RemarkSection section{"Thirds and sevenths", {}};
  if (summary.guide_tone_resolutions.of == 0 && outline.thirds.of == 0) return section;
  std::string words;
  if (outline.thirds.of > 0) words += fmt::format("Chords that get their third: {}. ", share_text(outline.thirds));
  if (outline.sevenths.of > 0)
    words += fmt::format("Their seventh{}: {}. ", sixths_count(report) ? " (of a sixth chord the sixth)" : "",
                         share_text(outline.sevenths));
  words += guide_tones_led(report, length) + guide_tones_kept(report, length);
  const Share& heard = report.analysis.heard.first_rank;
  if (heard.of > 0)
    words += fmt::format("From the notes alone, without hearing the changes, one would guess {} right.",
                         share_text(heard, "chord"));
  section.remarks.emplace_back(words);
  return section;
}

/// A tone that hangs over is told wherever it is struck; a pickup is not early.
Placement told_placement(const NoteLabel& label) {
  return label.placement == Placement::anticipation ? placement_when_struck(label) : label.placement;
}

RemarkSection early_and_late_remarks(const Report& report) {
  struct Displaced {
    Placement placement;
    const char* one;
    const char* many;
  };
  constexpr Displaced kinds[] = {
      {Placement::anticipation, "note belongs to the chord to come (anticipation)",
       "notes belong to the chord to come (anticipations)"},
      {Placement::suspension, "note hangs over from the chord before and falls (suspension)",
       "notes hang over from the chord before and fall (suspensions)"},
      {Placement::retardation, "note hangs over and rises (retardation)", "notes hang over and rise (retardations)"},
  };
  RemarkSection section{"Early and late", {}};
  for (const Displaced& kind : kinds) {
    std::vector<int> bars;
    for (std::size_t i = 0; i < report.analysis.labels.size(); ++i)
      if (told_placement(report.analysis.labels[i]) == kind.placement && !report.solo.notes[i].grace)
        bars.push_back(bar_of_note(report, i));
    if (bars.empty()) continue;
    const auto count = static_cast<int>(bars.size());
    section.remarks.emplace_back(
        fmt::format("{}: {}.", counted(count, kind.one, kind.many), in_bars(bars, Length::whole)));
  }
  return section;
}

RemarkSection telling_bar_remarks(const Report& report) {
  const auto& telling = report.analysis.telling_bars;
  RemarkSection section{telling.size() == 1 ? "A bar to look at" : "Bars to look at", {}};
  for (const TellingBar& bar : telling) {
    const auto found = std::ranges::find(report.solo.bars, bar.bar, &Bar::number);
    if (found == report.solo.bars.end()) continue;
    section.remarks.emplace_back(fmt::format("{}: {}{}", bar.bar < 1 ? "The pickup" : "Bar " + std::to_string(bar.bar),
                                             printable(bar.why), bar.why.ends_with('.') ? "" : "."));
    section.remarks.emplace_back(shown_bars(report, bar, static_cast<std::size_t>(found - report.solo.bars.begin())));
  }
  return section;
}

}  // namespace insideline::reports
