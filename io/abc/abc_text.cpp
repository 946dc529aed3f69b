#include "io/abc/abc_text.hpp"

#include "io/read_result.hpp"

#include <algorithm>
#include <cctype>

namespace insideline::io {
namespace {

constexpr std::string_view abc_byte_order_mark = "\xEF\xBB\xBF";
constexpr std::string_view abc_white = " \t\r\v\f";

std::string_view without_white(std::string_view text) {
  const auto first = text.find_first_not_of(abc_white);
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(abc_white) - first + 1);
}

/// A % opens a comment unless a backslash stands before it (2.2.2, 6.1.1); "%%" at the front is a directive.
std::string_view without_abc_comment(std::string_view line) {
  if (line.starts_with("%%")) return line;
  for (std::size_t at = line.find('%'); at != std::string_view::npos; at = line.find('%', at + 1))
    if (at == 0 || line[at - 1] != '\\') return line.substr(0, at);
  return line;
}

std::vector<AbcLine> abc_lines(const AbcText& source) {
  const std::string_view text = source.text;
  std::vector<AbcLine> lines;
  for (std::size_t start = 0; start < text.size();) {
    const std::size_t end = std::min(text.find('\n', start), text.size());
    lines.push_back({text.substr(start, end - start), start});
    start = end + 1;
  }
  return lines;
}

bool has_bars(const std::vector<AbcLine>& lines) {
  return std::ranges::any_of(lines, [](const AbcLine& line) { return !is_abc_field(line.text) && !line.text.empty(); });
}

/// Gathers the lines of a file into tunes.
class TuneSplitter {
 public:
  explicit TuneSplitter(bool numbered) : numbered_(numbered) {}

  void take(AbcLine line) {
    const bool empty = without_white(line.text).empty();
    line.text = without_abc_comment(line.text);
    if (!empty && without_white(line.text).empty()) return;  // a comment is no empty line
    if (line.text.starts_with("X:")) {
      begin();
      file_.tunes.back().number = std::string(abc_value(line).text);
    } else if (!numbered_ && file_.tunes.empty() && !empty) {
      begin();
    }
    if (file_.tunes.empty()) {
      if (is_abc_field(line.text) || line.text.starts_with("%%")) shared_.push_back(line);
    } else if (empty) {
      open_ = open_ && !(numbered_ || has_bars(file_.tunes.back().lines));
    } else if (open_) {
      add(line);
    } else if (!is_abc_field(line.text) && line.text.find('|') != std::string_view::npos) {
      file_.stray_bars.push_back(line);
    }
  }

  AbcFile finish() && { return std::move(file_); }

 private:
  void begin() {
    file_.tunes.push_back({shared_, {}, {}});
    open_ = true;
  }

  void add(const AbcLine& line) {
    AbcTune& tune = file_.tunes.back();
    if (line.text.starts_with("T:") && tune.title.empty()) tune.title = std::string(abc_value(line).text);
    tune.lines.push_back(line);
  }

  bool numbered_;
  bool open_ = false;
  std::vector<AbcLine> shared_;
  AbcFile file_;
};

}  // namespace

AbcText abc_text(std::string_view bytes, std::string_view file_name) {
  if (bytes.starts_with(abc_byte_order_mark)) bytes.remove_prefix(abc_byte_order_mark.size());
  AbcText source{.file = std::string(file_name), .text = std::string(bytes)};
  std::string& text = source.text;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto byte = static_cast<unsigned char>(text[i]);
    if (byte == '\r') text[i] = i + 1 < text.size() && text[i + 1] == '\n' ? ' ' : '\n';
    if ((byte < 0x20U && std::isspace(byte) == 0) || byte == 0x7FU)
      throw ReadError(place_of(file_name), "this is not a text file; a tune in ABC is plain text, saved as UTF-8");
  }
  return source;
}

AbcFile abc_tunes(const AbcText& source) {
  const std::vector<AbcLine> lines = abc_lines(source);
  TuneSplitter splitter(std::ranges::any_of(lines, [](const AbcLine& line) { return line.text.starts_with("X:"); }));
  for (const AbcLine& line : lines) splitter.take(line);
  return std::move(splitter).finish();
}

bool is_abc_field(std::string_view line) {
  if (line.size() < 2 || line[1] != ':') return false;
  if (std::isalpha(static_cast<unsigned char>(line[0])) == 0 && line[0] != '+') return false;
  return line.size() == 2 || (line[2] != '|' && line[2] != ':');
}

AbcLine abc_value(const AbcLine& field) {
  const std::string_view value = without_white(field.text.substr(2));
  if (value.empty()) return {value, field.offset_bytes};
  return {value, field.offset_bytes + static_cast<std::size_t>(value.data() - field.text.data())};
}

void refuse(const AbcText& source, std::size_t offset_bytes, std::string_view message) {
  throw ReadError(place_in(source.file, source.text, offset_bytes), message);
}

}  // namespace insideline::io
