#include "reports/csv_report.hpp"

#include <fmt/format.h>

#include <array>
#include <string_view>
#include <vector>

namespace insideline::reports {
namespace {

constexpr std::array csv_columns{
    "solo",   "index", "chorus", "bar",         "beat",       "onset_quarters", "duration_quarters",
    "grace",  "midi",  "name",   "written",     "chord",      "governor",       "placement",
    "degree", "role",  "figure", "resolves_to", "confidence", "arpeggio",       "reason"};

std::string quoted_cell(const std::string& cell) {
  if (cell.find_first_of(",\"\r\n") == std::string::npos) return cell;
  std::string text = "\"";
  for (const char character : cell) {
    if (character == '"') text += '"';
    text += character;
  }
  return text += '"';
}

/// At most six places, none that are nothing: "1.5", "0.333333", "4".
std::string decimal(double value) {
  std::string text = fmt::format("{:.6f}", value);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string symbol_of(const Harmony& harmony, const std::optional<std::size_t>& index) {
  return index ? not_a_formula(harmony.chords[*index].chord.symbol) : "";
}

/// For each note the number (from 1) of the arpeggio that it is a member of, or empty.
std::vector<std::string> arpeggio_numbers(const Analysis& analysis) {
  std::vector<std::string> numbers(analysis.labels.size());
  for (std::size_t i = 0; i < analysis.arpeggios.size(); ++i)
    for (const std::size_t member : analysis.arpeggios[i].notes) numbers[member] = std::to_string(i + 1);
  return numbers;
}

std::vector<std::string> note_cells(const Report& report, std::size_t index, const std::string& arpeggio) {
  const Note& note = report.solo.notes[index];
  const NoteLabel& label = report.analysis.labels[index];
  const Harmony& harmony = report.analysis.harmony;
  const Bar& bar = report.solo.bars[bar_index_at(report.solo, note.onset)];
  return {not_a_formula(report.source.solo_file),
          std::to_string(index),
          label.chord ? std::to_string(harmony.chords[*label.chord].chorus) : "",
          std::to_string(bar.number),
          decimal(to_double(beat_in_bar(bar, note.onset))),
          decimal(to_double(note.onset)),
          decimal(to_double(note.duration)),
          note.grace ? "yes" : "no",
          std::to_string(midi_number(note.pitch)),
          to_string(note.pitch),
          to_string(note.written),
          symbol_of(harmony, label.chord),
          symbol_of(harmony, label.governor),
          to_string(label.placement),
          label.degree ? to_string(*label.degree) : "",
          to_string(label.role),
          to_string(label.figure),
          label.resolves_to ? std::to_string(*label.resolves_to) : "",
          decimal(label.confidence),
          arpeggio,
          not_a_formula(label.reason)};
}

}  // namespace

std::string not_a_formula(const std::string& text) {
  constexpr std::string_view formula_starts = "=+-@\t\r";
  if (text.empty() || formula_starts.find(text.front()) == std::string_view::npos) return text;
  return "'" + text;
}

std::string csv_row(const std::vector<std::string>& cells) {
  std::string text;
  std::string_view separator;
  for (const std::string& cell : cells) {
    text += separator;
    text += quoted_cell(cell);
    separator = ",";
  }
  return text += "\r\n";
}

std::string csv_report(const Report& report) {
  std::string text = csv_row(std::vector<std::string>(csv_columns.begin(), csv_columns.end()));
  const std::vector<std::string> arpeggios = arpeggio_numbers(report.analysis);
  for (std::size_t i = 0; i < report.solo.notes.size(); ++i) text += csv_row(note_cells(report, i, arpeggios[i]));
  return text;
}

}  // namespace insideline::reports
