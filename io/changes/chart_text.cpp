#include "io/changes/chart_text.hpp"

#include "analyzer/utf8.hpp"
#include "io/changes/chart_headers.hpp"
#include "io/changes/typed_habits.hpp"
#include "io/read_result.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <optional>

#include <fmt/format.h>

namespace insideline::io {
namespace {

constexpr std::string_view byte_order_mark = "\xEF\xBB\xBF";
constexpr std::size_t longest_parenthesis = 64;  // bytes
constexpr std::size_t longest_section = 40;      // bytes

/// What keyboards and word processors put in place of a plain character, and the character.
struct Typed {
  std::string_view typed;
  char plain;
};
constexpr std::array typed_characters = {
    Typed{"\xC2\xA0", ' '},  // no-break space
    Typed{"\u2003", ' '},    // em space
    Typed{"\u2009", ' '},    // thin space
    Typed{"\u200B", ' '},    // zero-width space
    Typed{"\u202F", ' '},    // narrow no-break space
    Typed{"\u2060", ' '},    // word joiner
    Typed{"\u3000", ' '},    // ideographic space
    Typed{"\uFEFF", ' '},    // byte order mark inside a text
    Typed{"\u2502", '|'},    // box drawing, vertical
    Typed{"\uFF5C", '|'},    // full-width vertical line
};

unsigned int byte_at(std::string_view text, std::size_t position) { return static_cast<unsigned char>(text[position]); }

/// Makes line ends and white space alike without moving anything, so that places stay true.
void even_out(std::string& text) {
  for (std::size_t i = 0; i < text.size(); ++i) {
    const bool before_line_end = i + 1 < text.size() && text[i + 1] == '\n';
    if (text[i] == '\r') text[i] = before_line_end ? ' ' : '\n';
    if (text[i] == '\t' || text[i] == '\v' || text[i] == '\f') text[i] = ' ';
  }
  for (const auto& [typed, plain] : typed_characters)
    for (auto at = text.find(typed); at != std::string::npos; at = text.find(typed, at)) {
      text.replace(at, typed.size(), typed.size(), ' ');
      text[at] = plain;
    }
}

void check_text(const ChartText& chart) {
  for (std::size_t i = 0; i < chart.text.size();) {
    const std::size_t length = utf8_length(chart.text, i);
    if (length == 0)
      throw ReadError(place_in(chart.file, chart.text.substr(0, i), i),
                      "this is not UTF-8 text; save the changes as plain text in UTF-8");
    const unsigned int byte = byte_at(chart.text, i);
    if ((byte < 0x20U && byte != '\n') || byte == 0x7FU)
      throw ReadError(place_of(chart.file), "this is not a text file; changes are plain text with bar lines");
    i += length;
  }
}

/// A comment behind "//" is known by a word that a bar cannot have: "// F /" are two beats, a chord and a beat.
bool opens_remark(std::string_view line, std::size_t slashes) {
  constexpr std::size_t longest_remark = 200;  // bytes
  const std::string_view rest = line.substr(slashes + 2);
  const bool apart = slashes == 0 || line[slashes - 1] == ' ';
  return apart && !rest.starts_with('/') && rest.size() <= longest_remark && is_prose(rest);
}

/// A '#' opens a comment as the first character of a line, or between white space; so does "//" where words follow.
std::string_view without_comment(std::string_view line) {
  for (std::size_t at = line.find("//"); at != std::string_view::npos; at = line.find("//", at + 2))
    if (opens_remark(line, at)) return line.substr(0, at);
  for (std::size_t at = line.find('#'); at != std::string_view::npos; at = line.find('#', at + 1)) {
    const bool stands_alone = at > 0 && line[at - 1] == ' ' && (at + 1 == line.size() || line[at + 1] == ' ');
    if (at == 0 || stands_alone) return line.substr(0, at);
  }
  return line;
}

/// "---" or "=====" between parts of a page.
bool is_ruler(std::string_view line) {
  constexpr std::size_t shortest = 3;
  return line.size() >= shortest && std::string_view("-=_*~").find(line.front()) != std::string_view::npos &&
         line.find_first_not_of(line.front()) == std::string_view::npos;
}

/// How much of a line such as "3/4 | C | F |" is the meter; 0 where it does not begin with one.
std::size_t leading_meter(std::string_view line) {
  const std::size_t end = line.find_first_not_of("0123456789/");
  if (end == std::string_view::npos || end == 0 || line[end] != ' ') return 0;
  return trimmed(line.substr(end)).starts_with('|') && parse_meter(line.substr(0, end)) ? end : 0;
}

bool starts_bar_line(std::string_view rest) {
  return rest.starts_with('|') || rest.starts_with(":|") || rest.starts_with("::|") || rest.starts_with("[|");
}

std::string_view bar_line_of(std::string_view rest) {
  std::size_t length = rest.find('|');
  while (length < rest.size() && rest[length] == '|') ++length;
  if (length < rest.size() && rest[length] == ']') return rest.substr(0, length + 1);
  while (length < rest.size() && rest[length] == ':') ++length;
  return rest.substr(0, length);
}

/// "1.", "1,2." or "[1." at the front of `rest`; empty where there is none.
std::string_view ending_of(std::string_view rest) {
  const std::size_t first = rest.front() == '[' ? 1 : 0;
  if (first == rest.size() || std::isdigit(static_cast<unsigned char>(rest[first])) == 0) return {};
  const std::string_view numbers = rest.substr(0, rest.find_first_not_of("0123456789,-.", first));
  const bool is_section = first == 1 && numbers.size() < rest.size() && rest[numbers.size()] == ']';
  return is_section ? std::string_view() : numbers.substr(0, numbers.rfind('.') + 1);  // without a full stop: empty
}

/// True where the parenthesis that opens at the front of `rest` is closed in the same bar.
bool closes_again(std::string_view rest) {
  const std::string_view near = rest.substr(0, longest_parenthesis);
  return near.substr(0, near.find('|')).find(')') != std::string_view::npos;
}

/// A word goes on over white space inside parentheses: "C7(b9, #11)".
std::string_view word_of(std::string_view rest) {
  bool bracketed = false;
  std::size_t length = 0;
  for (; length < rest.size(); ++length) {
    const char character = rest[length];
    if (starts_bar_line(rest.substr(length))) break;
    if (character == ' ' && !bracketed) break;
    if (character == '(') bracketed = closes_again(rest.substr(length));
    if (character == ')') bracketed = false;
  }
  return rest.substr(0, length);
}

/// The "[A]" at the front of `rest`, brackets included.
std::string_view section_of(const ChartText& chart, std::string_view rest, std::size_t offset) {
  const auto close = rest.find(']');
  if (close == std::string_view::npos) refuse(chart, offset, "this section has no ]; a section is written [A]");
  if (rest[1] == ':') refuse(chart, offset, "a repeat is written |: and :|");
  if (trimmed(rest.substr(1, close - 1)).empty()) refuse(chart, offset, "this section has no name; write [A]");
  if (close > longest_section) refuse(chart, offset, "this name is too long for a section; write one like [A]");
  return rest.substr(0, close + 1);
}

}  // namespace

ChartText chart_text(std::string_view bytes, std::string_view file_name) {
  if (bytes.starts_with("\xFF\xFE") || bytes.starts_with("\xFE\xFF"))
    throw ReadError(place_of(file_name), "this is UTF-16 text; save the changes as UTF-8");
  if (bytes.starts_with("MThd") || bytes.starts_with("PK") || bytes.starts_with("<?xml"))
    throw ReadError(
        place_of(file_name),
        "this is a score or a MIDI file and no chart; changes are plain text like | Dm7 | G7 |, and the solo "
        "stands before --changes");
  if (bytes.starts_with("{\\rtf"))
    throw ReadError(place_of(file_name), "this is rich text; save the changes as plain text in UTF-8");
  if (bytes.starts_with(byte_order_mark)) bytes.remove_prefix(byte_order_mark.size());
  ChartText chart{.file = std::string(file_name), .text = std::string(bytes)};
  even_out(chart.text);
  check_text(chart);
  return chart;
}

std::vector<ChartLine> chart_lines(const ChartText& chart) {
  const std::string_view text = chart.text;
  std::vector<ChartLine> lines;
  for (std::size_t start = 0; start < text.size();) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    const std::string_view line = trimmed(without_comment(text.substr(start, end - start)));
    const auto add = [&](std::string_view part) {
      lines.push_back({part, static_cast<std::size_t>(part.data() - text.data())});
    };
    const std::size_t meter = leading_meter(line);
    if (meter > 0) add(line.substr(0, meter));
    if (!line.empty() && !is_ruler(line)) add(trimmed(line.substr(meter)));
    start = end + 1;
  }
  return lines;
}

std::vector<Sign> signs_of(const ChartText& chart, const ChartLine& line) {
  std::vector<Sign> signs;
  for (std::size_t at = 0; at < line.text.size();) {
    const std::string_view rest = line.text.substr(at);
    const bool at_bar_start = signs.empty() || signs.back().kind != SignKind::word;
    if (rest.front() == ' ') {
      ++at;
      continue;
    }
    Sign sign{.kind = SignKind::word, .text = {}, .offset_bytes = line.offset_bytes + at};
    if (starts_bar_line(rest)) {
      sign.kind = SignKind::bar_line;
      sign.text = bar_line_of(rest);
    } else if (at_bar_start && !ending_of(rest).empty()) {
      sign.kind = SignKind::ending;
      sign.text = ending_of(rest);
    } else if (rest.front() == '[') {
      sign.kind = SignKind::section;
      sign.text = section_of(chart, rest, sign.offset_bytes);
    } else {
      sign.text = word_of(rest);
    }
    at += sign.text.size();
    if (sign.kind == SignKind::section) sign.text = trimmed(sign.text.substr(1, sign.text.size() - 2));
    signs.push_back(sign);
  }
  return signs;
}

void refuse(const ChartText& chart, std::size_t offset_bytes, std::string_view message) {
  throw ReadError(place_in(chart.file, chart.text, offset_bytes), message);
}

std::string_view trimmed(std::string_view text) {
  const auto first = text.find_first_not_of(' ');
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(' ') - first + 1);
}

}  // namespace insideline::io
