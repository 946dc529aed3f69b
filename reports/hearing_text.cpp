#include "reports/hearing_text.hpp"

#include "reports/text/display_width.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

namespace insideline::reports {
namespace {

constexpr std::size_t comment_column = 36;
constexpr std::array<std::string_view, 8> grace_ordinals = {"first", "second", "third",   "fourth",
                                                            "fifth", "sixth",  "seventh", "eighth"};

std::string_view of_chord(const std::optional<Against>& against) {
  if (against == Against::sounding) return " of this chord";
  if (against == Against::next) return " of the next chord";
  return against == Against::previous ? " of the chord before" : "";
}

/// What a listener said.
std::string words_of(const Pin& pin) {
  std::string words;
  const auto add = [&](const std::string& more) { words += (words.empty() ? "" : " ") + more; };
  if (pin.role) add(to_string(*pin.role));
  if (pin.degree) add(to_string(*pin.degree));
  if (pin.figure) add(to_string(*pin.figure));
  if (pin.placement) add(to_string(*pin.placement));
  return words + std::string(of_chord(pin.against));
}

/// What the program hears, said so that it is heard again.
std::string words_of(const NoteLabel& label) {
  if (label.role == Role::outside) return to_string(label.role);
  if (label.role == Role::non_chord_tone) return to_string(label.figure);
  std::optional<Against> against;
  if (label.chord && label.governor != label.chord)
    against = label.placement == Placement::anticipation ? Against::next : Against::previous;
  return to_string(label.figure) + std::string(of_chord(against));
}

class HearingLinesWriter {
 public:
  explicit HearingLinesWriter(const Report& report) : report_(report), notes_(report.solo.notes) {}

  [[nodiscard]] std::string line(std::size_t note) const {
    const NoteLabel& label = report_.analysis.labels[note];
    const Pin* const pin = label.pinned ? pin_of(note) : nullptr;
    std::string text = pin != nullptr ? place(note) + words_of(*pin) : "# " + place(note) + words_of(label);
    text.resize(std::max(text.size() + 1, comment_column), ' ');
    return text + "# " + remark(note, label) + '\n';
  }

 private:
  [[nodiscard]] const Pin* pin_of(std::size_t note) const {
    for (const Pin& pin : report_.settings.pins)
      if (pinned_note(report_.solo, pin) == note) return &pin;
    return nullptr;
  }

  /// "12 2.5 ", "12 3 second grace ".
  [[nodiscard]] std::string place(std::size_t note) const {
    const Bar& bar = report_.solo.bars[bar_index_at(report_.solo, notes_[note].onset)];
    std::string text = fmt::format("{} {} ", bar.number, beat_text(beat_in_bar(bar, notes_[note].onset)));
    if (!notes_[note].grace) return text;
    const auto same = [&](std::size_t other) {
      return other < notes_.size() && notes_[other].grace && notes_[other].onset == notes_[note].onset;
    };
    std::size_t before = 0;
    while (before < note && same(note - before - 1)) ++before;
    if (before > 0 || same(note + 1))
      text += std::string(grace_ordinals.at(std::min(before, grace_ordinals.size() - 1))) + " ";
    return text + "grace ";
  }

  [[nodiscard]] std::string symbol(const std::optional<std::size_t>& chord) const {
    return chord ? printable(report_.analysis.harmony.chords[*chord].chord.symbol) : "no chord";
  }

  /// "Ab4 over G7: 83 %, or ninth of G7 15 %".
  [[nodiscard]] std::string remark(std::size_t note, const NoteLabel& label) const {
    constexpr double hundred = 100.0;
    std::string text = fmt::format("{} over {}", to_string(notes_[note].pitch), symbol(label.chord));
    if (label.degree && label.governor)
      text += fmt::format(", {} of {}", to_string(*label.degree), symbol(label.governor));
    if (label.pinned) return text;
    if (label.confidence >= 1.0) return text;
    text += fmt::format("; {:.0f} %", label.confidence * hundred);
    if (label.alternatives.empty()) return text;
    const Alternative& other = label.alternatives.front();
    const bool member = other.role == Role::chord_tone || other.role == Role::tension;
    return text + fmt::format(", or {}{} {:.0f} %",
                              other.role == Role::outside ? to_string(other.role) : to_string(other.figure),
                              member ? " of " + symbol(other.governor) : "", other.probability * hundred);
  }

  const Report& report_;
  const std::vector<Note>& notes_;
};

bool wanted(const NoteLabel& label, HearingLines lines) {
  if (label.pinned) return true;
  if (label.role == Role::no_chord || label.figure == Figure::none) return false;
  return lines == HearingLines::all || label.confidence < sure_enough;
}

}  // namespace

std::string hearing_text(const Report& report, HearingLines lines) {
  std::string text = fmt::format(
      "# {}: bar, beat, and what the note is, as insideline hears it.\n"
      "# Where you hear otherwise, take away the # in front of the line and change the words: a role, a figure, a "
      "place\n"
      "# in the chord or a degree (b9), and 'of the next chord' or 'of the chord before'. Lines behind # change "
      "nothing.\n",
      printable(report.source.solo_file));
  int bar_before = -1;
  for (std::size_t note = 0; note < report.solo.notes.size(); ++note) {
    if (!wanted(report.analysis.labels[note], lines)) continue;
    const int bar = report.solo.bars[bar_index_at(report.solo, report.solo.notes[note].onset)].number;
    if (bar != bar_before) text += '\n';
    bar_before = bar;
    text += HearingLinesWriter(report).line(note);
  }
  return text;
}

int set_by_hand(const Analysis& analysis) {
  return static_cast<int>(std::ranges::count_if(analysis.labels, &NoteLabel::pinned));
}

}  // namespace insideline::reports
