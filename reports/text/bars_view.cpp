#include "reports/text/bars_view.hpp"

#include "analyzer/model/sections.hpp"
#include "reports/tallies.hpp"
#include "reports/text/bar_columns.hpp"
#include "reports/text/canvas.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/marks.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <limits>
#include <optional>
#include <string_view>
#include <utility>

namespace insideline::reports {
namespace {

enum Row : std::size_t { bar_row, chord_row, beat_row, note_row, degree_row, motion_row, arpeggio_row, connection_row };
constexpr std::array<std::string_view, 8> row_names = {"bar",    "chord",  "beat",     "note",
                                                       "degree", "motion", "arpeggio", "connection"};
constexpr std::size_t margin = 11;  // columns for the names of the rows
constexpr std::size_t gap = 1;      // columns between two cells
constexpr std::size_t bar_line = 2;
constexpr std::size_t widest_letter = 20;  // of a section, in columns

struct BarCell {
  std::string text;
  Ink ink = Ink::plain;
};

/// One thing that begins in a bar, with its cells.
struct Column {
  std::optional<std::size_t> note;
  std::array<BarCell, row_names.size()> cells;
  std::size_t width = 0;
};

/// A bar, or the part of a long bar that goes on one line.
struct Measure {
  std::string name;
  std::vector<Column> columns;
  bool begins_bar = true;
  bool double_line = false;  ///< stands before it
};

using Line = std::vector<Measure>;

/// Into `note`: the first of the new chord, or the one on which a guide tone arrives late.
std::string connection_text(const Connection& connection, std::size_t note) {
  if (connection.to_note != note || !connection.from_degree || !connection.to_degree)
    return to_string(connection.late->from_degree) + ">" + to_string(connection.late->to_degree) + "*";
  const std::string text = to_string(*connection.from_degree) + ">" + to_string(*connection.to_degree);
  return connection.guide_tone ? text + "*" : text;
}

/// By index of the note that a connection leads to.
using ConnectionsInto = std::vector<const Connection*>;

ConnectionsInto connections_into_notes(const Report& report) {
  ConnectionsInto connections(report.solo.notes.size());
  for (const Connection& connection : report.analysis.connections)
    if (connection.to_note && connection.from_degree && connection.to_degree)
      connections[*connection.to_note] = &connection;
  for (const Connection& connection : report.analysis.connections)
    if (connection.late && connections[connection.late->to_note] == nullptr)
      connections[connection.late->to_note] = &connection;
  return connections;
}

void fill_note_cells(const Report& report, std::size_t note, const Connection* connection, Column& column) {
  const NoteLabel& label = report.analysis.labels[note];
  const Ink ink = ink_of(label.role);
  column.cells[note_row] = {to_string(report.solo.notes[note].pitch), Ink::plain};
  column.cells[degree_row] = {degree_mark(label), ink};
  column.cells[motion_row] = {std::string(abbreviation(label.figure)), ink};
  if (connection != nullptr) column.cells[connection_row].text = connection_text(*connection, note);
}

/// Chord symbols may reach over the columns after them; other cells make theirs wide enough.
void set_widths(std::vector<Column>& columns) {
  for (Column& column : columns) {
    for (std::size_t row = 0; row < row_names.size(); ++row)
      if (row != chord_row) column.width = std::max(column.width, display_width(column.cells[row].text) + gap);
  }
  for (std::size_t from = 0; from < columns.size();) {
    std::size_t next = from + 1;
    std::size_t room = columns[from].width;
    for (; next < columns.size() && columns[next].cells[chord_row].text.empty(); ++next) room += columns[next].width;
    const std::string& symbol = columns[from].cells[chord_row].text;
    const std::size_t wanted = symbol.empty() ? 0 : display_width(symbol) + gap;
    if (wanted > room) columns[next - 1].width += wanted - room;
    from = next;
  }
}

std::string bar_name(const Report& report, std::size_t bar_index) {
  const Bar& bar = report.solo.bars[bar_index];
  if (bar.number < 1) return "pickup";
  const std::vector<SoundingSection>& sections = report.analysis.harmony.sections;
  std::string name = std::to_string(bar.number);
  if (const auto section = section_beginning_at(sections, bar.onset))
    name += fmt::format("  [{}]", cut_to_width(sections[*section].name, widest_letter));
  const Beats& length = report.analysis.harmony.chorus_length;
  if (length <= Beats(0) || report.analysis.harmony.choruses < 2) return name;
  for (const SoundingChord& chord : report.analysis.harmony.chords)
    if (chord.onset == bar.onset &&
        report.analysis.harmony.first_chorus + Beats(chord.chorus - 1) * length == bar.onset)
      name += "  chorus " + std::to_string(chord.chorus);
  return name;
}

Measure measure_of(const Report& report, std::size_t bar_index, const ConnectionsInto& connections) {
  Measure measure;
  measure.name = bar_name(report, bar_index);
  const Bar& bar = report.solo.bars[bar_index];
  measure.double_line = bar_index > 0 && has_double_bar(report.solo, report.analysis.harmony, bar.onset);
  std::vector<BarColumn> columns = bar_columns(report, bar_index);
  measure.columns.reserve(columns.size());
  for (BarColumn& source : columns) {
    Column& column = measure.columns.emplace_back();
    column.note = source.note;
    column.cells[chord_row] = {std::move(source.chord), Ink::title};
    column.cells[beat_row] = {std::move(source.beat), Ink::faint};
    if (source.note)
      fill_note_cells(report, *source.note, connections[*source.note], column);
    else
      column.cells[note_row] = {source.held ? "~" : "·", Ink::faint};
  }
  set_widths(measure.columns);
  return measure;
}

std::size_t width_of(const Measure& measure) {
  std::size_t width = bar_line;
  for (const Column& column : measure.columns) width += column.width;
  return std::max(width, bar_line + display_width(measure.name) + gap);
}

/// A measure cut so that each part fits `width`; one column at least in each.
std::vector<Measure> cut(Measure measure, std::size_t width) {
  std::vector<Measure> parts;
  for (Column& column : measure.columns) {
    const bool first = parts.empty();
    if (first || width_of(parts.back()) + column.width > width) {
      parts.push_back({.name = first ? measure.name : "",
                       .columns = {},
                       .begins_bar = first,
                       .double_line = first && measure.double_line});
      parts.back().columns.reserve(measure.columns.size());
    }
    parts.back().columns.push_back(std::move(column));
  }
  return parts;
}

std::vector<Line> broken_into_lines(std::vector<Measure> measures, std::size_t width) {
  std::vector<Line> lines;
  std::size_t used = width;
  for (Measure& whole : measures) {
    for (Measure& part : cut(std::move(whole), width)) {
      const std::size_t needed = width_of(part);
      if (lines.empty() || used + needed > width) {
        lines.emplace_back();
        used = 0;
      }
      lines.back().push_back(std::move(part));
      used += needed;
    }
  }
  return lines;
}

using Canvas = std::array<CanvasRow, row_names.size()>;

/// Where a note stands on a line: its first column and that after its name.
struct Spot {
  std::size_t begin = 0;
  std::size_t end = 0;
};

/// Of the notes of one line.
class Spots {
 public:
  explicit Spots(const Line& line) {
    std::size_t end = 0;
    for (const Measure& measure : line)
      for (const Column& column : measure.columns) {
        if (!column.note) continue;
        first_ = std::min(first_, *column.note);
        end = std::max(end, *column.note + 1);
      }
    if (end > 0) spots_.resize(end - first_);
  }
  [[nodiscard]] const std::optional<Spot>& at(std::size_t note) const {
    static constexpr std::optional<Spot> nowhere;
    return meets(note, note) ? spots_[note - first_] : nowhere;
  }
  void put(std::size_t note, const Spot& spot) { spots_[note - first_] = spot; }
  /// Whether any note from `from` to `to` may stand there.
  [[nodiscard]] bool meets(std::size_t from, std::size_t to) const {
    return to >= first_ && from < first_ + spots_.size();
  }

 private:
  std::size_t first_ = std::numeric_limits<std::size_t>::max();
  std::vector<std::optional<Spot>> spots_;  ///< from the first note on
};

void draw_measure(const Measure& measure, std::size_t at, Canvas& canvas, Spots& spots) {
  for (std::size_t row = chord_row; row < row_names.size(); ++row)
    if (measure.begins_bar) canvas[row].write(at, measure.double_line ? "║" : "│", Ink::faint);
  canvas[bar_row].write(at + bar_line, measure.name, Ink::faint);
  std::size_t column_at = at + bar_line;
  for (const Column& column : measure.columns) {
    for (std::size_t row = chord_row; row < row_names.size(); ++row)
      canvas[row].write(column_at, column.cells[row].text, column.cells[row].ink);
    if (column.note) {
      const std::size_t shown = std::max(display_width(column.cells[note_row].text), std::size_t{2});
      spots.put(*column.note, {column_at, column_at + shown});
    }
    column_at += column.width;
  }
}

std::string_view direction_word(const Arpeggio& arpeggio) {
  switch (arpeggio.direction) {
    case Direction::ascending: return "up";
    case Direction::descending: return arpeggio.straight_descent ? "down!" : "down";
    case Direction::mixed: return goes_both_ways(arpeggio) ? "both ways" : "turns";
  }
  return "";
}

/// Draws as much of the arpeggio as stands on this line. Where it begins on the note that ends another, the hooks meet.
void draw_arpeggio(const Arpeggio& arpeggio, bool shares_first, const Spots& spots, CanvasRow& row) {
  if (!spots.meets(arpeggio.notes.front(), arpeggio.notes.back())) return;
  std::optional<Spot> reach;
  for (const std::size_t member : arpeggio.notes) {
    const std::optional<Spot>& spot = spots.at(member);
    if (!spot) continue;
    reach = Spot{reach ? std::min(reach->begin, spot->begin) : spot->begin,
                 reach ? std::max(reach->end, spot->end) : spot->end};
  }
  if (!reach) return;
  const std::optional<Spot>& first = spots.at(arpeggio.notes.front());
  const bool joins = shares_first && first;
  if (joins) reach->begin = first->end - 1;
  for (std::size_t at = reach->begin; at < reach->end; ++at) row.write(at, "─");
  if (first) row.write(reach->begin, joins ? "┴" : "└");
  if (spots.at(arpeggio.notes.back())) row.write(reach->end - 1, "┘");
  const std::string direction = fmt::format(" {} ", direction_word(arpeggio));
  constexpr std::string_view short_for_both_ways = " both ";
  const std::string in_full =
      arpeggio.ornaments.empty() ? direction : fmt::format(" {}, ornamented ", direction_word(arpeggio));
  const std::size_t inside = reach->end - reach->begin - 2;
  if (in_full.size() + 2 <= inside)
    row.write(reach->begin + 2, in_full);
  else if (direction.size() <= inside)
    row.write(reach->begin + 1, direction);
  else if (goes_both_ways(arpeggio) && short_for_both_ways.size() <= inside)
    row.write(reach->begin + 1, short_for_both_ways);
}

std::string drawn(const Line& line, const Report& report, Colour colour) {
  Canvas canvas;
  Spots spots(line);
  std::size_t at = margin;
  for (const Measure& measure : line) {
    draw_measure(measure, at, canvas, spots);
    at += width_of(measure);
  }
  CanvasRow brackets;
  const std::vector<Arpeggio>& arpeggios = report.analysis.arpeggios;
  for (std::size_t i = 0; i < arpeggios.size(); ++i)
    draw_arpeggio(arpeggios[i], shares_first_note(arpeggios, i), spots, brackets);
  if (!brackets.blank()) canvas[arpeggio_row] = brackets;

  std::string text;
  for (std::size_t row = 0; row < row_names.size(); ++row) {
    const bool optional_row = row == motion_row || row == arpeggio_row || row == connection_row;
    const bool empty =
        row == arpeggio_row ? brackets.blank() : std::ranges::all_of(line, [row](const Measure& measure) {
          return std::ranges::all_of(measure.columns,
                                     [row](const Column& column) { return column.cells[row].text.empty(); });
        });
    if (optional_row && empty) continue;
    canvas[row].write(0, row_names[row], Ink::faint);
    text += canvas[row].text(colour) + "\n";
  }
  return text;
}

}  // namespace

std::string bars_view(const Report& report, const std::vector<std::size_t>& bars, Colour colour,
                      std::size_t line_width) {
  const ConnectionsInto connections = connections_into_notes(report);
  std::vector<Measure> measures;
  for (const std::size_t bar : bars) measures.push_back(measure_of(report, bar, connections));
  std::string text;
  for (const Line& line : broken_into_lines(std::move(measures), line_width - margin))
    text += drawn(line, report, colour) + "\n";
  return text;
}

}  // namespace insideline::reports
