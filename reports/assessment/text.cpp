#include "reports/assessment/assessment_report.hpp"
#include "reports/assessment/course_words.hpp"
#include "reports/assessment/words.hpp"
#include "reports/drill_plan.hpp"
#include "reports/practice_log/words.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::reports {
namespace {

constexpr std::size_t name_width = 24;

std::string group_line(const TakeGroup& group) {
  constexpr std::size_t width = 20;
  const std::string bar = padded_right(gauge(group.right.count, group.right.of, "█", width), width);
  std::string line = fmt::format("  {}{} {:>4} of {:<4} {}", padded_right(printable(group.name), name_width), bar,
                                 group.right.count, group.right.of, mistakes_of(group));
  while (line.ends_with(' ')) line.pop_back();
  return line + "\n";
}

/// "  bar 5, beat 2&   Eb4       E4"
std::string note_by_note(const AssessmentReport& report, Colour colour) {
  const Assessment& assessment = report.assessment;
  if (assessment.mistakes.empty()) return {};
  constexpr std::size_t most = 40;
  constexpr std::size_t width = 14;
  std::string text = "\n" + painted("Note by note, " + report.note_pitch, Ink::title, colour) + "\n";
  text += fmt::format("  {:<{}}{:<{}}{}\n", "", name_width, "to play", width, "played");
  for (std::size_t i = 0; i < std::min(most, assessment.mistakes.size()); ++i) {
    const MistakeWords words = in_words(assessment.mistakes[i]);
    text += fmt::format("  {}{:<{}}{}\n", padded_right(printable(words.where), name_width), words.wanted, width,
                        words.played);
  }
  if (assessment.mistakes.size() > most)
    text += paragraph(fmt::format("and {} more; the page of --html shows all", assessment.mistakes.size() - most));
  return text;
}

std::string takes_so_far(const AssessmentReport& report, Colour colour) {
  if (report.takes.empty()) return {};
  std::string text = "\n" + painted("Takes of this sheet so far", Ink::title, colour) + "\n";
  for (const LoggedTake& take : report.takes) text += take_line(take, report.bound);
  return text + paragraph(tempo_advice(report));
}

/// The tones of a chord symbol that the line never gives, or all of the chord.
std::string missed(const Analysis& analysis, bool (*is_missed)(const ChordOutline&)) {
  std::vector<std::string> symbols;
  for (const ChordOutline& chord : analysis.outline.chords) {
    const std::string& symbol = analysis.harmony.chords[chord.chord].chord.symbol;
    if (is_missed(chord) && std::ranges::find(symbols, symbol) == symbols.end()) symbols.push_back(symbol);
  }
  return listed(symbols);
}

std::string free_verdict(const FreeReport& report, const Share& explained) {
  if (is_played_out(report.playing)) return readiness_in_words(explained, report.bound);
  return "Not ready: too many bars got nothing. " + notes_alone_in_words(explained, report.bound);
}

}  // namespace

std::string assessment_text(const AssessmentReport& report, Colour colour) {
  std::string text = painted(fmt::format("{} against {}", printable(report.take_file), printable(report.sheet_title)),
                             Ink::title, colour) +
                     "\n";
  for (const std::string& sentence : assessment_sentences(report)) text += paragraph(sentence);
  for (const GroupTable& table : group_tables(report.assessment)) {
    text += "\n" + painted(table.title, Ink::title, colour) + "\n";
    for (const TakeGroup& group : *table.groups) text += group_line(group);
  }
  text += note_by_note(report, colour);
  return text + takes_so_far(report, colour) + "\n" + paragraph(caution_line());
}

std::string free_text(const FreeReport& report, Colour colour) {
  const Summary& summary = report.analysis.summary;
  const int notes = summary.chord_tone_share.of;
  const Share explained{.count = notes - summary.outside, .of = notes};
  std::string text = painted(fmt::format("{} over {}", printable(report.take_file), printable(report.changes_title)),
                             Ink::title, colour) +
                     "\n";
  text +=
      paragraph(fmt::format("{}: {}, {} and {} on their way to another tone; {} outside. {}", counted(notes, "note"),
                            counted(summary.chord_tones, "chord tone"), counted(summary.tensions, "tension"),
                            summary.non_chord_tones, summary.outside, free_verdict(report, explained)));
  if (report.from_sound) text += paragraph(from_sound_in_words(*report.from_sound));
  if (!report.pitch.empty()) text += paragraph(report.pitch);
  const Share& bars = report.playing.bars;
  text += paragraph(report.playing.silent.empty()
                        ? fmt::format("Played in all {}.", counted(bars.of, "bar"))
                        : fmt::format("Played in {} of {}; nothing in {}.", bars.count, counted(bars.of, "bar"),
                                      bars_in_words(report.playing.silent)));
  const std::string silent = missed(report.analysis, [](const ChordOutline& chord) { return chord.notes == 0; });
  if (!silent.empty()) text += paragraph("Chords that pass without a note of theirs: " + silent + ".");
  const std::string bare = missed(report.analysis, [](const ChordOutline& chord) {
    return chord.notes > 0 && chord.has_third && !chord.third && !chord.seventh;
  });
  if (!bare.empty()) text += paragraph("Chords that get neither third nor seventh: " + bare + ".");
  text += paragraph(fmt::format("Thirds are given to {}, sevenths to {}.",
                                share_text(report.analysis.outline.thirds, "chord"),
                                share_text(report.analysis.outline.sevenths, "chord")));
  return text + "\n" + paragraph(caution_line());
}

}  // namespace insideline::reports
