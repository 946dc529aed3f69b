#include "reports/printed/sheet.hpp"

#include "reports/text/time_wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::reports {

std::optional<Excerpt> excerpt_of(const Solo& solo, const std::optional<BarRange>& bars) {
  const auto is_wanted = [&](const Bar& bar) {
    return !bars || (bar.number >= bars->first && bar.number <= bars->last);
  };
  const auto first = std::ranges::find_if(solo.bars, is_wanted);
  if (first == solo.bars.end()) return std::nullopt;
  const auto after = std::find_if_not(first, solo.bars.end(), is_wanted);
  const Bar& last = *(after - 1);
  return Excerpt{static_cast<std::size_t>(first - solo.bars.begin()),
                 static_cast<std::size_t>(after - solo.bars.begin()) - 1, first->onset, last.onset + last.length};
}

bool is_printed_note(const Sheet& sheet, std::size_t index) {
  const Note& note = sheet.report.solo.notes[index];
  return !note.grace && note.onset >= sheet.excerpt.onset && note.onset < sheet.excerpt.end;
}

int bar_of_note(const Sheet& sheet, std::size_t index) {
  const Solo& solo = sheet.report.solo;
  return solo.bars[bar_index_at(solo, solo.notes[index].onset)].number;
}

Interval to_printed_pitch(const Sheet& sheet) {
  if (sheet.options.pitch == PrintedPitch::concert) return {};
  return -sheet.report.solo.sounding_minus_written;
}

std::string places_text(const Sheet& sheet, const std::vector<std::size_t>& notes) {
  const Solo& solo = sheet.report.solo;
  std::string text;
  std::optional<std::size_t> bar_before;
  for (const std::size_t note : notes) {
    const std::size_t bar = bar_index_at(solo, solo.notes[note].onset);
    const std::string beat = beat_in_words(beat_in_bar(solo.bars[bar], solo.notes[note].onset));
    if (bar == bar_before) {
      text += ", " + beat;
    } else {
      text += fmt::format("{}{} ({}", text.empty() ? "" : "), ", solo.bars[bar].number, beat);
    }
    bar_before = bar;
  }
  return text.empty() ? text : text + ")";
}

}  // namespace insideline::reports
