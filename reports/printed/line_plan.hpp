// Where a new line of music begins. Forms are counted in fours, so four bars make a line where they fit; four that do
// not are two lines of two, or of one bar each. A chorus begins a line. Common practice, no source.
#pragma once

#include "analyzer/notation/rhythm_writing.hpp"
#include "reports/printed/sheet.hpp"

#include <cstddef>
#include <cstdint>
#include <set>
#include <span>
#include <string>
#include <vector>

namespace insideline::reports {

enum class LastLine : std::uint8_t { full, short_of_bars };

struct LinePlan {
  std::set<std::size_t>
      starts;                   ///< bars that begin a line, as indices into Solo::bars; the first bar is not among them
  std::set<std::size_t> pages;  ///< those of them that begin a page
  LastLine last = LastLine::full;
};

/// Notes and rests in a line, each with room for a degree and an arrow; tried on A4 and Letter.
constexpr std::size_t most_with_degrees = 31;

/// `bars` are those of the excerpt; `most_in_a_line` notes and rests have room.
LinePlan line_plan(const Sheet& sheet, std::span<const WrittenBar> bars,
                   std::size_t most_in_a_line = most_with_degrees);

/// The line of a bar, an index into Solo::bars; 0 is the first.
std::size_t line_of(const LinePlan& plan, std::size_t bar);

/// What stands at the beginning of a bar of the form, as LilyPond text: a double bar line, unless the bar is the first
/// on the sheet, and boxes with the chorus and the letter of the section that begin. Empty within a section.
std::string form_text(const Sheet& sheet, const Bar& bar, bool is_first);

/// The boxes alone, as markup: `chorus`, unless it is 0, and the letter of the section that begins with the bar.
std::vector<std::string> form_boxes(const Sheet& sheet, const Bar& bar, int chorus);

/// Boxes side by side over the beginning of a bar; empty for none.
std::string mark_text(std::span<const std::string> boxes);

/// The chorus that begins with the bar, where there are several; 0 for none.
int chorus_starting_at(const Sheet& sheet, const Bar& bar);

}  // namespace insideline::reports
