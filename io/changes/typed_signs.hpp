// Signs that people type apart, or in another form than a chart has: "C min7", "x 2", "|1 C", "(A) | F7 |". Each is
// taken only where the plain reading fails or would be a slip, and is told.
#pragma once

#include "io/changes/chart_text.hpp"

#include <optional>
#include <string_view>
#include <vector>

namespace insideline::io {

/// A section at the front of a line, and how much of the line names it.
struct FrontName {
  std::string_view name;
  std::size_t length = 0;  ///< bytes
};

/// "A" of "(A) | F7 |" and "A) | F7 |", "Intro" of "(Intro) | C |"; also where the line has nothing else, as the
/// word "Intro" alone may stand. None for "(A7) | D7 |", which begins with a chord.
std::optional<FrontName> front_name(const ChartLine& line);

/// Whether `text` is "Intro", "Bridge" or another word that names a section by itself.
bool is_section_word(std::string_view text);

/// With "x" and "2" behind it, or "2" and "x" behind a repeat sign, as one word.
std::vector<Sign> with_times_joined(const ChartText& chart, const std::vector<Sign>& signs);

/// The words of a bar with chord symbols that blanks split as one: "C", "min7" is a Cmin7. The second part cannot be a
/// chord by itself, but for an alteration: "C7 b9" is no B9.
std::vector<Sign> with_symbols_joined(const ChartText& chart, const std::vector<Sign>& words);

/// "1" of "|1 C", "2" of "|2nd D", "1,2": the passes of an ending without its full stop; none for other words.
std::optional<std::string_view> ending_number(std::string_view word);

/// "(turnaround)" behind the last bar line: a word in parentheses that says nothing about what is played.
bool is_remark(const Sign& word);

/// "x3", "3x", "(3x)", "x 3", "×3" behind a :|, a line or a bar say how often it is played; none for any other word.
std::optional<int> times_of(std::string_view word);

/// The passes of "1.", "[1.", "1,2." or "1-3."; empty where the numbers cannot be read.
std::vector<int> passes_of(std::string_view text);

}  // namespace insideline::io
