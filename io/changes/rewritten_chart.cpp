#include "io/changes/rewritten_chart.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/key_moves.hpp"
#include "io/changes/changes_file.hpp"
#include "io/changes/chart_headers.hpp"
#include "io/changes/chart_reader.hpp"
#include "io/changes/chart_text.hpp"
#include "io/changes/typed_habits.hpp"

#include <algorithm>
#include <cstddef>
#include <span>
#include <vector>

namespace insideline::io {
namespace {

/// Some bytes of the file and what stands there instead.
struct Replacement {
  std::size_t offset_bytes = 0;
  std::size_t length = 0;
  std::string text;
};

/// None for what is no chord: %, dots, N.C.
std::optional<Replacement> of_chord(const Sign& word, const ChartRewriting& how) {
  const std::string typed = with_capital_root(word.text).value_or(in_one_word(word.text));
  const std::size_t dots = typed.size() - (typed.find_last_not_of("./") + 1);
  for (const std::size_t left_out : {std::size_t{0}, dots}) {
    if (left_out == typed.size()) break;
    const auto reading = parse_chord_symbol(std::string_view(typed).substr(0, typed.size() - left_out));
    if (!reading) continue;
    if (!*reading) break;
    return Replacement{word.offset_bytes, word.text.size() - left_out, rewritten(**reading, how).symbol};
  }
  return std::nullopt;
}

/// The tonic in the line of the key, with its accidental.
Replacement of_key(const ChartText& chart, const ChartLine& line, const Key& key) {
  const std::size_t at = line.offset_bytes + line.text.find_first_not_of(' ', header_value(line));
  std::size_t length = 1;
  for (const std::string_view sign : {"#", "♯", "b", "♭"})
    if (std::string_view(chart.text).substr(at + 1).starts_with(sign)) length = 1 + sign.size();
  return {at, length, to_string(tonic_of(key))};
}

/// Whether bar lines in this line of the file were set under those of others: two blanks stand before one.
bool keeps_columns(std::string_view line) { return line.find("  |") != std::string_view::npos; }

/// Takes up what the symbols before have gained or lost, as far as a blank stays before the bar line.
class Columns {
 public:
  void changed(std::size_t before, std::size_t after) {
    gained_ += static_cast<std::ptrdiff_t>(after) - static_cast<std::ptrdiff_t>(before);
  }

  /// The text between two symbols of a line.
  std::string adjusted(std::string_view between) {
    std::string text(between);
    for (std::size_t bar = text.find(" |"); bar != std::string::npos; bar = text.find(" |", bar + 2)) {
      if (gained_ < 0) {
        text.insert(bar, static_cast<std::size_t>(-gained_), ' ');
        bar += static_cast<std::size_t>(-gained_);
        gained_ = 0;
      }
      while (gained_ > 0 && bar > 0 && text[bar - 1] == ' ') {
        text.erase(--bar, 1);
        --gained_;
      }
    }
    return text;
  }

 private:
  std::ptrdiff_t gained_ = 0;  ///< bytes since the last bar line that stands where it stood
};

std::string replaced(std::string_view bytes, std::span<const Replacement> replacements) {
  std::string text;
  std::size_t at = 0;
  for (std::size_t line = 0; line < bytes.size();) {
    const std::size_t end = std::min(bytes.find('\n', line), bytes.size() - 1) + 1;
    Columns columns;
    const bool kept = keeps_columns(bytes.substr(line, end - line));
    const auto between = [&](std::size_t next) {
      const std::string_view part = bytes.substr(at, next - at);
      return kept ? columns.adjusted(part) : std::string(part);
    };
    for (; !replacements.empty() && replacements.front().offset_bytes < end; replacements = replacements.subspan(1)) {
      const Replacement& one = replacements.front();
      text += between(one.offset_bytes) + one.text;
      columns.changed(one.length, one.text.size());
      at = one.offset_bytes + one.length;
    }
    text += between(end);
    at = line = end;
  }
  return text;
}

}  // namespace

Chord rewritten(const Chord& chord, const ChartRewriting& how) {
  const bool moves = how.by != Interval{};
  Chord moved = moves ? plainly_spelled(transposed(chord, how.by)) : chord;
  return how.accidentals ? spelled_with(moved, *how.accidentals) : moved;
}

std::string rewritten_chart(std::string_view bytes, std::string_view file_name, const ChartRewriting& how) {
  const ChartReading reading = parse_chart(bytes, file_name);
  const ChartText chart = chart_text(bytes, file_name);
  std::vector<ChartLine> lines = chart_lines(chart);
  take_text_above(lines);
  std::vector<ChartLine> of_chords;
  std::vector<Replacement> replacements;
  for (const ChartLine& line : lines) {
    const bool is_a_header = is_header(line);
    if (!is_a_header || (!of_chords.empty() && header_word(line) == "meter")) of_chords.push_back(line);
    if (is_a_header && header_word(line) == "key")
      replacements.push_back(of_key(chart, line, transposed(reading.changes.key.value_or(Key{}), how.by)));
  }
  const Meter meter = reading.changes.meter.value_or(Meter{});
  for (const Sign& word : read_bars(chart, of_chords, meter).words)
    if (auto replacement = of_chord(word, how)) replacements.push_back(std::move(*replacement));
  std::ranges::sort(replacements, {}, &Replacement::offset_bytes);
  const std::string_view without_mark = bytes.substr(bytes.size() - chart.text.size());
  return replaced(without_mark, replacements);
}

}  // namespace insideline::io
