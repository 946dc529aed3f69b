// What is played again or has a name in textbooks, beside arpeggios: only what is there is told.
#include "reports/text/display_width.hpp"
#include "reports/text/remarks.hpp"
#include "reports/text/wording.hpp"

#include "analyzer/patterns/riffs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string>
#include <utility>
#include <vector>

namespace insideline::reports {
namespace {

constexpr double half_of_a_chorus = 0.5;

int bar_number(const Report& report, std::size_t note) {
  return report.solo.bars[bar_index_at(report.solo, report.solo.notes[note].onset)].number;
}

/// "bars 1, 2 and 4"; of many the first few.
template <typename Found>
std::vector<int> bars_of_all(const Report& report, const std::vector<Found>& found) {
  std::vector<int> bars;
  for (const Found& one : found) bars.push_back(bar_number(report, one.first));
  return bars;
}

/// "moved 4 times, fitted to the chord twice": what the later places change.
std::string what_changes(const Riff& riff) {
  const auto times = [&](auto changes) { return static_cast<int>(std::ranges::count_if(riff.places, changes)); };
  std::vector<std::string> changes;
  if (const int moved = times([](const RiffPlace& place) { return place.moved != 0; }); moved > 0)
    changes.push_back(fmt::format("from another note {}", counted(moved, "time")));
  if (const int fitted = times([](const RiffPlace& place) { return place.fitted; }); fitted > 0)
    changes.push_back(fmt::format("with a half step changed {}", counted(fitted, "time")));
  if (const int shifted = times([](const RiffPlace& place) { return !place.same_beat; }); shifted > 0)
    changes.push_back(fmt::format("from another beat {}", counted(shifted, "time")));
  return changes.empty() ? "always the same" : listed(changes);
}

/// Notes in riffs by chorus, of the notes that have a chord.
std::vector<Share> riff_shares(const Report& report) {
  const auto inside = riff_notes(report.analysis.patterns.riffs, report.solo.notes.size());
  std::vector<Share> shares(static_cast<std::size_t>(std::max(report.analysis.harmony.choruses, 1)));
  for (std::size_t i = 0; i < inside.size(); ++i) {
    const NoteLabel& label = report.analysis.labels[i];
    if (report.solo.notes[i].grace || !label.governor || label.role == Role::no_chord) continue;
    Share& share = shares.at(static_cast<std::size_t>(report.analysis.harmony.chords[*label.governor].chorus - 1));
    ++share.of;
    if (inside[i]) ++share.count;
  }
  return shares;
}

void tell_riff_choruses(const Report& report, RemarkSection& section) {
  const auto shares = riff_shares(report);
  for (std::size_t chorus = 0; chorus < shares.size(); ++chorus) {
    if (ratio(shares[chorus]).value_or(0.0) < half_of_a_chorus) continue;
    const std::string which =
        shares.size() > 1 ? fmt::format("Chorus {} is a riff chorus", chorus + 1) : "It is built on riffs";
    section.remarks.emplace_back(fmt::format("{}: {} are in riffs.", which, share_text(shares[chorus], "note")));
  }
}

void tell_riffs(const Report& report, RemarkSection& section, Length length) {
  constexpr std::size_t most_riffs = 3;
  const auto& riffs = report.analysis.patterns.riffs;
  for (std::size_t i = 0; i < std::min(riffs.size(), most_riffs); ++i) {
    std::vector<int> bars;
    for (const RiffPlace& place : riffs[i].places) bars.push_back(place.bar);
    section.remarks.emplace_back(fmt::format("A riff of {} comes {} ({}), {}.", counted(riffs[i].notes, "note"),
                                             counted(static_cast<int>(riffs[i].places.size()), "time"),
                                             in_bars(bars, length), what_changes(riffs[i])));
  }
}

void tell_sequences(const Report& report, RemarkSection& section) {
  constexpr std::size_t most_sequences = 3;
  const auto& sequences = report.analysis.patterns.sequences;
  for (std::size_t i = 0; i < std::min(sequences.size(), most_sequences); ++i) {
    const Sequence& sequence = sequences[i];
    const std::string what =
        sequence.thirds ? "A scale in thirds" : fmt::format("A sequence of {}", counted(sequence.notes, "note"));
    section.remarks.emplace_back(fmt::format("{} goes {} from bar {}: {}.", what, sequence.up ? "up" : "down",
                                             bar_number(report, sequence.first), counted(sequence.times, "time")));
  }
}

void tell_digital_patterns(const Report& report, RemarkSection& section, Length length) {
  std::map<std::string, std::vector<int>> by_steps;
  for (const DigitalPattern& pattern : report.analysis.patterns.digital)
    by_steps[pattern.steps].push_back(bar_number(report, pattern.first));
  std::vector<std::string> said;
  for (const auto& [steps, bars] : by_steps) said.push_back(fmt::format("{} ({})", steps, in_bars(bars, length)));
  if (!said.empty()) section.remarks.emplace_back("Digital patterns: " + listed(said) + ".");
}

std::string over_chords(const Report& report, int degree, int& notes, Length length) {
  std::map<std::string, std::vector<int>> by_symbol;
  for (const BlueNote& blue : report.analysis.patterns.blue_notes) {
    if (blue.degree != degree) continue;
    by_symbol[report.analysis.harmony.chords[blue.chord].chord.symbol].push_back(bar_number(report, blue.note));
    ++notes;
  }
  std::vector<std::string> said;
  for (const auto& [symbol, bars] : by_symbol)
    said.push_back(fmt::format("{} ({})", printable(symbol), in_bars(bars, length)));
  return listed(said);
}

void tell_scale_runs(const Report& report, RemarkSection& section, Length length) {
  std::vector<PentatonicRun> pentatonic;
  std::vector<PentatonicRun> blues;
  for (const PentatonicRun& run : report.analysis.patterns.pentatonic_runs)
    (run.has_blue_fifth ? blues : pentatonic).push_back(run);
  const auto tell = [&](const std::vector<PentatonicRun>& runs, const char* name) {
    if (runs.empty()) return;
    section.remarks.emplace_back(fmt::format("{} ({}).", counted(static_cast<int>(runs.size()), name),
                                             in_bars(bars_of_all(report, runs), length)));
  };
  tell(pentatonic, "minor pentatonic run");
  tell(blues, "blues-scale run");
}

void tell_vocabulary(const Report& report, RemarkSection& section, Length length) {
  const Patterns& patterns = report.analysis.patterns;
  constexpr std::pair<int, const char*> names[] = {{3, "blue third"}, {5, "blue fifth"}, {7, "blue seventh"}};
  for (const auto& [degree, what] : names) {
    int notes = 0;
    const std::string chords = over_chords(report, degree, notes, length);
    if (notes > 0) section.remarks.emplace_back(fmt::format("{} over {}.", counted(notes, what), chords));
  }
  tell_scale_runs(report, section, length);
  if (patterns.added_half_steps.empty()) return;
  std::vector<int> bars;
  for (const AddedHalfStep& step : patterns.added_half_steps) bars.push_back(bar_number(report, step.note));
  section.remarks.emplace_back(fmt::format("The added half step of the bebop scales: {} ({}).",
                                           counted(static_cast<int>(patterns.added_half_steps.size()), "time"),
                                           in_bars(bars, length)));
}

}  // namespace

RemarkSection pattern_remarks(const Report& report, Length length) {
  RemarkSection section{"Patterns", {}};
  tell_riff_choruses(report, section);
  tell_riffs(report, section, length);
  tell_sequences(report, section);
  tell_digital_patterns(report, section, length);
  tell_vocabulary(report, section, length);
  return section;
}

}  // namespace insideline::reports
