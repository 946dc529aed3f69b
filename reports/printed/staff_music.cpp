#include "reports/printed/staff_music.hpp"

#include "reports/printed/lilypond_text.hpp"
#include "reports/printed/signs.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <iterator>
#include <map>
#include <optional>
#include <set>
#include <vector>

namespace insideline::reports {
namespace {

struct Clef {
  std::string_view name;
  int bottom_line;  ///< diatonic steps above C0
  int cost;         ///< ledger lines a note that a less usual clef must save
};
constexpr int steps_in_octave = 7;
constexpr std::array<Clef, 4> clefs{{
    {"treble", 4 * steps_in_octave + 2, 0},        // E4
    {"bass", 2 * steps_in_octave + 4, 0},          // G2
    {"\"treble^8\"", 5 * steps_in_octave + 2, 2},  // E5
    {"\"bass_8\"", steps_in_octave + 4, 2},        // G1
}};

constexpr int middle_c = 60;

int ledger_lines(const Pitch& pitch, const Clef& clef) {
  constexpr int lines_span = 8;
  const int above_bottom = pitch.octave * steps_in_octave + static_cast<int>(pitch.name.step) - clef.bottom_line;
  if (above_bottom < 0) return -above_bottom / 2;
  return above_bottom > lines_span ? (above_bottom - lines_span) / 2 : 0;
}

/// What is attached to a note: brackets that begin or end at it.
struct Attachments {
  std::map<std::size_t, std::string> before;
  std::map<std::size_t, std::string> after;
};

/// The notes under a bracket, line by line of the plan.
std::vector<std::vector<std::size_t>> notes_by_line(const Sheet& sheet, const std::vector<std::size_t>& notes,
                                                    const LinePlan& plan) {
  std::vector<std::vector<std::size_t>> lines;
  std::optional<std::size_t> line;
  for (const std::size_t note : notes) {
    const std::size_t line_of_note =
        line_of(plan, bar_index_at(sheet.report.solo, sheet.report.solo.notes[note].onset));
    if (line != line_of_note) lines.emplace_back();
    line = line_of_note;
    lines.back().push_back(note);
  }
  return lines;
}

/// A bracket that goes on in the next line has two, and its text at the longer. One bracket cannot end on the note
/// where the next begins.
Attachments attached_brackets(const Sheet& sheet, const Marks& marks, const LinePlan& plan) {
  Attachments attachments;
  std::set<std::size_t> ends;
  for (const Bracket& bracket : marks.brackets) {
    std::vector<std::size_t> notes = bracket.notes;
    if (ends.contains(notes.front())) notes.erase(notes.begin());
    ends.insert(notes.back());
    const auto lines = notes_by_line(sheet, notes, plan);
    const auto longest = std::ranges::max_element(lines, {}, &std::vector<std::size_t>::size);
    for (auto line = lines.begin(); line != lines.end(); ++line) {
      if (line->size() < 2) continue;
      attachments.before[line->front()] = fmt::format("\\once \\override HorizontalBracketText.text = {} ",
                                                      line == longest ? bracket.text : "\\markup \\null");
      attachments.after[line->front()] += "\\startGroup";
      attachments.after[line->back()] += "\\stopGroup";
    }
  }
  return attachments;
}

/// What is put to the notes: heads, and what stands before and after each.
struct Drawn {
  const Sheet& sheet;
  const Marks& marks;
  Attachments attachments;
};

std::string value_text(const NoteValue& value) {
  return std::to_string(value.divisor) + std::string(static_cast<std::size_t>(value.dots), '.');
}

/// P: a plain head.
std::string_view head_letter(const Drawn& drawn, std::size_t note) {
  return drawn.marks.coloured.contains(note) ? role_letter(drawn.sheet.report.analysis.labels[note].role) : "P";
}

std::string_view ring_call(const Drawn& drawn, std::size_t note) {
  const auto ring = drawn.marks.rings.find(note);
  if (ring == drawn.marks.rings.end()) return "";
  return ring->second == Ring::circle ? "\\ringed #'circle " : "\\ringed #'square ";
}

std::string head(const Drawn& drawn, std::size_t note, bool struck, std::string_view value) {
  const NoteLabel& label = drawn.sheet.report.analysis.labels[note];
  const std::string sound = lilypond_pitch(drawn.sheet.report.solo.notes[note].pitch) + std::string(value);
  if (!struck) return fmt::format("\\held #'{} {}", head_letter(drawn, note), sound);
  return fmt::format("{}\\note #'{} \"n{}\" \"{}\" {}", ring_call(drawn, note), head_letter(drawn, note), note,
                     label.degree ? to_string(*label.degree) : "", sound);
}

std::string grace_text(const Drawn& drawn, std::span<const std::size_t> notes, std::string_view kind) {
  if (notes.empty()) return {};
  std::string text = fmt::format("\\{} {{ ", kind);
  for (const std::size_t note : notes) text += head(drawn, note, true, notes.size() == 1 ? "8" : "16") + " ";
  return text + "} ";
}

std::string words_over(const Drawn& drawn, std::size_t note) {
  const auto words = drawn.marks.words.find(note);
  if (words == drawn.marks.words.end()) return {};
  return fmt::format("^\\markup \\word-over \"{}\"", fmt::join(words->second, " "));
}

std::string symbol_text(const Drawn& drawn, const WrittenSymbol& symbol) {
  if (!symbol.note) return "r" + value_text(symbol.value);
  std::string text = grace_text(drawn, symbol.grace_notes, "acciaccatura");
  const auto before = drawn.attachments.before.find(*symbol.note);
  if (symbol.struck && before != drawn.attachments.before.end()) text += before->second;
  text += head(drawn, *symbol.note, symbol.struck, value_text(symbol.value));
  if (symbol.tied) text += "~";
  const auto after = drawn.attachments.after.find(*symbol.note);
  if (symbol.struck && after != drawn.attachments.after.end()) text += after->second;
  if (symbol.struck) text += words_over(drawn, *symbol.note);
  if (!symbol.grace_notes_after.empty()) text += " " + grace_text(drawn, symbol.grace_notes_after, "grace");
  return text;
}

std::string group_text(const Drawn& drawn, const WrittenGroup& group) {
  std::string text;
  for (const WrittenSymbol& symbol : group.symbols) text += symbol_text(drawn, symbol) + " ";
  if (group.notes == group.in_time_of) return text;
  return fmt::format("\\tuplet {}/{} {{ {}}} ", group.notes, group.in_time_of, text);
}

/// Where a line may end, and the chorus that begins.
std::string line_text(const Sheet& sheet, const LinePlan& plan, const WrittenBar& written, const Bar* before) {
  const Bar& bar = sheet.report.solo.bars[written.bar];
  std::string text;
  if (plan.pages.contains(written.bar))
    text += "\\pageBreak ";
  else if (plan.starts.contains(written.bar))
    text += "\\break ";
  else if (before != nullptr)
    text += "\\noBreak ";
  return text + form_text(sheet, bar, before == nullptr);
}

/// What a bar says before its notes, as far as it differs from the bar before.
std::string bar_opening(const Sheet& sheet, const WrittenBar& written, const Bar* before, const Beats& length_before) {
  const Solo& solo = sheet.report.solo;
  const Bar& bar = solo.bars[written.bar];
  std::string text;
  const auto key = key_at(solo, bar.onset);
  if (key && (before == nullptr || key_at(solo, before->onset) != key)) text += lilypond_key(*key) + " ";
  const bool meter_changes = before == nullptr || !(before->meter == bar.meter);
  if (meter_changes) text += fmt::format("\\time {} ", to_string(bar.meter));
  const Beats full = bar_length(bar.meter);
  if (before == nullptr && written.length < full)
    text += fmt::format("\\partial {} ", lilypond_length(written.length));
  else if (written.length != (meter_changes ? full : length_before))
    text += fmt::format("\\set Timing.measureLength = #(ly:make-moment {}) ", to_string(written.length / 4));
  return text;
}

std::string bar_text(const Drawn& drawn, const WrittenBar& written) {
  std::string text;
  for (const WrittenGroup& group : written.groups) text += group_text(drawn, group);
  if (written.groups.empty()) text = fmt::format("R{} ", lilypond_length(written.length));
  return text + "|";
}

}  // namespace

std::string_view clef_of(const Instrument& instrument) {
  switch (instrument.clef) {
    case StaffClef::treble: return "treble";
    case StaffClef::alto: return "alto";
    case StaffClef::bass: return "bass";
  }
  return "treble";
}

std::string_view clef_for(std::span<const Pitch> pitches) {
  if (pitches.empty()) return clefs.front().name;
  const auto cost = [&](const Clef& clef) {
    int lines = clef.cost * static_cast<int>(pitches.size());
    for (const Pitch& pitch : pitches) lines += ledger_lines(pitch, clef);
    return lines;
  };
  const Clef& best = *std::ranges::min_element(clefs, {}, cost);
  const Clef& treble = clefs[0];
  const Clef& bass = clefs[1];
  const bool is_close_call = &best == &treble && cost(bass) * 10 <= cost(treble) * 11;
  if (!is_close_call) return best.name;
  std::vector<int> heights;
  for (const Pitch& pitch : pitches) heights.push_back(midi_number(pitch));
  const auto middle = heights.begin() + static_cast<std::ptrdiff_t>(heights.size() / 2);
  std::ranges::nth_element(heights, middle);
  return *middle <= middle_c ? bass.name : treble.name;
}

std::string staff_music(const Sheet& sheet, std::span<const WrittenBar> bars, const LinePlan& plan,
                        const Marks& marks) {
  const Solo& solo = sheet.report.solo;
  const Drawn drawn{sheet, marks, attached_brackets(sheet, marks, plan)};
  std::vector<Pitch> pitches;  // of the whole solo, so that all sheets of it have one clef
  for (std::size_t note = 0; note < solo.notes.size(); ++note)
    if (!solo.notes[note].grace) pitches.push_back(solo.notes[note].pitch);
  const int first_number = std::max(1, solo.bars[bars.front().bar].number);
  const auto& reader = sheet.report.reading.instrument;
  std::string text = fmt::format("  \\clef {} \\set Score.currentBarNumber = #{}\n",
                                 reader ? clef_of(*reader) : clef_for(pitches), first_number);
  if (solo.bars[bars.front().bar].number == 0)
    text += "  \\set Score.barNumberVisibility = #first-bar-number-invisible-and-no-parenthesized-bar-numbers\n";
  const Bar* before = nullptr;
  Beats length_before;
  for (const WrittenBar& written : bars) {
    const Bar& bar = solo.bars[written.bar];
    text += fmt::format("  % bar {}\n  {}{}{}\n", bar.number, line_text(sheet, plan, written, before),
                        bar_opening(sheet, written, before, length_before), bar_text(drawn, written));
    // After a shortened first bar the meter counts again.
    length_before =
        before == nullptr && written.length < bar_length(bar.meter) ? bar_length(bar.meter) : written.length;
    before = &bar;
  }
  return bars.back().bar + 1 == solo.bars.size() ? text + "  \\bar \"|.\"\n" : text;
}

}  // namespace insideline::reports
