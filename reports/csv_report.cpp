#include "reports/csv_report.hpp"

#include "reports/decimal.hpp"
#include "reports/reading_words.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <concepts>
#include <optional>
#include <string_view>

namespace insideline::reports {
namespace {

constexpr std::array<std::string_view, 21> csv_columns{
    "solo",   "index", "chorus", "bar",         "beat",       "onset_quarters", "duration_quarters",
    "grace",  "midi",  "name",   "written",     "chord",      "governor",       "placement",
    "degree", "role",  "figure", "resolves_to", "confidence", "arpeggio",       "reason"};

bool is_formula(std::string_view text) {
  constexpr std::string_view formula_starts = "=+-@\t\r";
  return !text.empty() && formula_starts.find(text.front()) != std::string_view::npos;
}

/// Writes cell after cell into one text. Invariant: between two cells of a row stands one comma.
class Rows {
 public:
  explicit Rows(std::string& text) : text_(text) {}

  void cell(std::string_view cell) {
    separate();
    append_quoted("", cell);
  }
  /// See not_a_formula.
  void cell_from_file(std::string_view cell) {
    separate();
    append_quoted(is_formula(cell) ? "'" : "", cell);
  }
  template <std::integral Whole>
  void cell(Whole value) {
    cell(std::to_string(value));
  }
  void cell(double value) {
    separate();
    append_decimal(text_, value);
  }
  void cell(const Beats& time) { cell(to_double(time)); }
  template <typename Value>
  void cell(const std::optional<Value>& value) {
    if (value)
      cell(*value);
    else
      cell(std::string_view());
  }
  void end_row() {
    text_ += "\r\n";
    is_first_ = true;
  }

 private:
  void separate() {
    if (!is_first_) text_ += ',';
    is_first_ = false;
  }

  void append_quoted(std::string_view mark, std::string_view cell) {
    const bool needs_quotes = std::ranges::any_of(cell, [](char character) {
      return character == ',' || character == '"' || character == '\r' || character == '\n';
    });
    if (needs_quotes) text_ += '"';
    text_ += mark;
    if (needs_quotes) {
      for (const char character : cell) {
        if (character == '"') text_ += '"';
        text_ += character;
      }
      text_ += '"';
    } else {
      text_ += cell;
    }
  }

  std::string& text_;
  bool is_first_ = true;
};

std::string_view symbol_of(const Harmony& harmony, const std::optional<std::size_t>& index) {
  return index ? std::string_view(harmony.chords[*index].chord.symbol) : std::string_view();
}

/// For each note the number (from 1) of the arpeggio that it is a member of, if there is one.
std::vector<std::optional<std::size_t>> arpeggio_numbers(const Analysis& analysis) {
  std::vector<std::optional<std::size_t>> numbers(analysis.labels.size());
  for (std::size_t i = 0; i < analysis.arpeggios.size(); ++i)
    for (const std::size_t member : analysis.arpeggios[i].notes) numbers[member] = i + 1;
  return numbers;
}

void write_row(Rows& rows, const Report& report, std::size_t index, const std::optional<std::size_t>& arpeggio) {
  const Note& note = report.solo.notes[index];
  const NoteLabel& label = report.analysis.labels[index];
  const Harmony& harmony = report.analysis.harmony;
  const Bar& bar = report.solo.bars[bar_index_at(report.solo, note.onset)];
  rows.cell_from_file(report.source.solo_file);
  rows.cell(index);
  rows.cell(label.chord ? std::optional(harmony.chords[*label.chord].chorus) : std::nullopt);
  rows.cell(bar.number);
  rows.cell(beat_in_bar(bar, note.onset));
  rows.cell(note.onset);
  rows.cell(note.duration);
  rows.cell(note.grace ? "yes" : "no");
  rows.cell(sounding_midi(report.reading, note.pitch));
  rows.cell(to_string(note.pitch));
  rows.cell(to_string(note.written));
  rows.cell_from_file(symbol_of(harmony, label.chord));
  rows.cell_from_file(symbol_of(harmony, label.governor));
  rows.cell(to_string(label.placement));
  rows.cell(label.degree ? to_string(*label.degree) : "");
  rows.cell(to_string(label.role));
  rows.cell(to_string(label.figure));
  rows.cell(label.resolves_to);
  rows.cell(label.confidence);
  rows.cell(arpeggio);
  rows.cell_from_file(label.reason);
  rows.end_row();
}

}  // namespace

std::string not_a_formula(const std::string& text) { return is_formula(text) ? "'" + text : text; }

std::string csv_row(const std::vector<std::string>& cells) {
  std::string text;
  Rows rows(text);
  for (const std::string& cell : cells) rows.cell(cell);
  rows.end_row();
  return text;
}

std::string csv_report(const Report& report) {
  assert(report.analysis.detail == Detail::reasons && "all that is written was asked for");
  std::string text;
  Rows rows(text);
  for (const std::string_view column : csv_columns) rows.cell(column);
  rows.end_row();
  const std::vector<std::optional<std::size_t>> arpeggios = arpeggio_numbers(report.analysis);
  for (std::size_t i = 0; i < report.solo.notes.size(); ++i) write_row(rows, report, i, arpeggios[i]);
  return text;
}

}  // namespace insideline::reports
