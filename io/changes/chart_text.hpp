// The text of a changes file, checked and cut into what a musician types: header
// lines, bar lines, endings, section letters and words (chords, dots, %).
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

struct ChartText {
  std::string file;  ///< for messages
  std::string text;  ///< UTF-8 without a byte order mark; a line ends in '\n', other white space is ' '
};

/// A line without its comment and without white space around it; never empty.
struct ChartLine {
  std::string_view text;
  std::size_t offset_bytes = 0;  ///< of `text` in ChartText::text
};

enum class SignKind : std::uint8_t {
  bar_line,  ///< "|" "||" "|:" ":|" ":|:" "|]"
  ending,    ///< "1." "1,2." "1-3."
  section,   ///< the name between [ and ]
  word       ///< everything else: a chord, dots, %
};

struct Sign {
  SignKind kind = SignKind::word;
  std::string_view text;
  std::size_t offset_bytes = 0;
};

/// Throws ReadError where `bytes` are not UTF-8 text.
ChartText chart_text(std::string_view bytes, std::string_view file_name);

/// `chart` must outlive the lines, and the lines' text the signs.
std::vector<ChartLine> chart_lines(const ChartText& chart);
std::vector<Sign> signs_of(const ChartText& chart, const ChartLine& line);

/// Throws the ReadError for the place `offset_bytes` into the chart.
[[noreturn]] void refuse(const ChartText& chart, std::size_t offset_bytes, std::string_view message);

std::string_view trimmed(std::string_view text);

}  // namespace insideline::io
