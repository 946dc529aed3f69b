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

namespace insideline::reports {

enum class LastLine : std::uint8_t { full, short_of_bars };

struct LinePlan {
  std::set<std::size_t>
      starts;                   ///< bars that begin a line, as indices into Solo::bars; the first bar is not among them
  std::set<std::size_t> pages;  ///< those of them that begin a page
  LastLine last = LastLine::full;
};

/// `bars` are those of the excerpt.
LinePlan line_plan(const Sheet& sheet, std::span<const WrittenBar> bars);

/// The line of a bar, an index into Solo::bars; 0 is the first.
std::size_t line_of(const LinePlan& plan, std::size_t bar);
/// What stands at the beginning of a bar of the form, as LilyPond text: a double bar line, unless the bar is the first
/// on the sheet, and boxes with the chorus and the letter of the section that begin. Empty within a section.
std::string form_text(const Sheet& sheet, const Bar& bar, bool is_first);

/// The chorus that begins with the bar, where there are several; 0 for none.
int chorus_starting_at(const Sheet& sheet, const Bar& bar);

}  // namespace insideline::reports
