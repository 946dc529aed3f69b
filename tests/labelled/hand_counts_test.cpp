// The demo pieces counted with a pencil (hand_counts.tsv) against what the analysis says of them.
// Invented music and one counter: agreement and a guard against regressions, not outside evidence.
#include "tests/support/chord_reading.hpp"

#include "analyzer/alignment.hpp"
#include "analyzer/analysis.hpp"
#include "io/changes/changes_file.hpp"
#include "io/read_solo.hpp"
#include "tests/support/folders.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Beats;
using insideline::Solo;
using std::string;

namespace {

struct Piece {
  Solo solo;
  insideline::Analysis analysis;
};

Piece analysed_piece(const string& name) {
  const std::filesystem::path folder = INSIDELINE_CORPUS;
  auto read = insideline::io::read_solo(folder / (name + ".musicxml"));
  const auto chart = folder / (name + ".changes");
  const insideline::Changes changes =
      std::filesystem::exists(chart) ? insideline::io::read_changes(chart) : read.changes.value();
  auto analysis = insideline::analyze(read.solo, insideline::lay_out(changes, read.solo));
  return {std::move(read.solo), std::move(analysis)};
}

/// "12:5/2": bar and beat.
string place_of(const Solo& solo, const Beats& onset) {
  const insideline::Bar& bar = solo.bars[bar_index_at(solo, onset)];
  return fmt::format("{}:{}", bar.number, to_string(beat_in_bar(bar, onset)));
}

string kind_between(const Solo& solo, const insideline::Connection& connection) {
  if (connection.kind == insideline::ConnectionKind::none) return "none";
  return fmt::format("{} {} {}", to_string(solo.notes[connection.from_note.value()].written),
                     to_string(solo.notes[connection.to_note.value()].written), to_string(connection.kind));
}

string shape_of(const insideline::Arpeggio& arpeggio) {
  return fmt::format("{}, {}, {}{}", insideline::tests::spelled(arpeggio.degrees), to_string(arpeggio.direction),
                     arpeggio.complete ? "complete" : "not complete",
                     arpeggio.straight_descent ? ", straight down" : "");
}

int full_bars(const Piece& piece) {
  return static_cast<int>(
      std::count_if(piece.solo.bars.begin(), piece.solo.bars.end(), [](const auto& bar) { return bar.number > 0; }));
}

/// One row a figure of the count: its name in the table, and where the analysis has it.
struct Figure {
  string name;
  int (*of)(const Piece&);
};

const std::vector<Figure> figures = {
    {"notes", [](const Piece& piece) { return piece.analysis.summary.notes; }},
    {"bars", full_bars},
    {"choruses", [](const Piece& piece) { return piece.analysis.harmony.choruses; }},
    {"notes_over_chords", [](const Piece& piece) { return piece.analysis.densities.all.strict.of; }},
    {"chord_tones", [](const Piece& piece) { return piece.analysis.densities.all.strict.count; }},
    {"on_beat", [](const Piece& piece) { return piece.analysis.densities.on_beat.strict.of; }},
    {"chord_tones_on_beat", [](const Piece& piece) { return piece.analysis.densities.on_beat.strict.count; }},
    {"off_beat", [](const Piece& piece) { return piece.analysis.densities.off_beat.strict.of; }},
    {"chord_tones_off_beat", [](const Piece& piece) { return piece.analysis.densities.off_beat.strict.count; }},
    {"at_change", [](const Piece& piece) { return piece.analysis.densities.on_chord_changes.strict.of; }},
    {"chord_tones_at_change",
     [](const Piece& piece) { return piece.analysis.densities.on_chord_changes.strict.count; }},
    {"changes", [](const Piece& piece) { return static_cast<int>(piece.analysis.connections.size()); }},
    {"thirds", [](const Piece& piece) { return piece.analysis.outline.thirds.count; }},
    {"sevenths", [](const Piece& piece) { return piece.analysis.outline.sevenths.count; }},
};

int figure_named(const string& name, const Piece& piece) {
  for (const Figure& figure : figures)
    if (figure.name == name) return figure.of(piece);
  throw std::invalid_argument("hand_counts.tsv: no such figure: " + name);
}

/// What was counted for one piece. Places are bar:beat.
/// A row: what the pencil counted, and after " | " another reading that is fair.
using Readings = std::vector<string>;

Readings readings_of(const string& counted) {
  const std::size_t bar = counted.find(" | ");
  if (bar == string::npos) return {counted};
  return {counted.substr(0, bar), counted.substr(bar + 3)};
}

bool holds(const Readings& readings, const string& found) {
  return std::ranges::find(readings, found) != readings.end();
}

struct Count {
  std::map<string, Readings> figures;
  std::map<string, Readings> connections;
  std::map<string, Readings> arpeggios;
  int arpeggios_to_bar = 0;  ///< from bar 1 to here no fragment is left out; 0: none counted
};

std::map<string, Count> hand_counts() {
  std::map<string, Count> pieces;
  for (const auto& row : insideline::tests::table_rows(INSIDELINE_TESTS "/labelled/hand_counts.tsv")) {
    if (row.at(0) == "piece") continue;
    Count& count = pieces[row[0]];
    const string& what = row.at(1);
    const string& place = row.at(2);
    const string& counted = row.at(3);
    if (what == "connection")
      count.connections[place] = readings_of(counted);
    else if (what == "arpeggio")
      count.arpeggios[place] = readings_of(counted);
    else if (what == "arpeggios_to_bar")
      count.arpeggios_to_bar = std::stoi(counted);
    else
      count.figures[what] = readings_of(counted);
  }
  return pieces;
}

std::map<string, string> connections_found(const Piece& piece) {
  std::map<string, string> found;
  for (const auto& connection : piece.analysis.connections)
    found[place_of(piece.solo, piece.analysis.harmony.chords[connection.to_chord].onset)] =
        kind_between(piece.solo, connection);
  return found;
}

/// Those that begin in bars 1 to `last_bar`; a pickup was not counted.
std::map<string, string> arpeggios_found(const Piece& piece, int last_bar) {
  std::map<string, string> found;
  for (const auto& arpeggio : piece.analysis.arpeggios) {
    const Beats& onset = piece.solo.notes[arpeggio.notes.front()].onset;
    const int bar = piece.solo.bars[bar_index_at(piece.solo, onset)].number;
    if (bar >= 1 && bar <= last_bar) found[place_of(piece.solo, onset)] = shape_of(arpeggio);
  }
  return found;
}

}  // namespace

TEST_CASE("a pencil and the analysis count the demo pieces alike") {
  const auto pieces = hand_counts();
  REQUIRE(pieces.size() == 10);
  for (const auto& [name, count] : pieces) {
    const Piece piece = analysed_piece(name);
    CHECK(count.figures.size() == figures.size());
    for (const auto& [figure, counted] : count.figures) {
      INFO(name << ", " << figure);
      CHECK(holds(counted, std::to_string(figure_named(figure, piece))));
    }
  }
}

TEST_CASE("a pencil and the analysis find the same connections") {
  int compared = 0;
  for (const auto& [name, count] : hand_counts()) {
    const auto found = connections_found(analysed_piece(name));
    for (const auto& [place, kinds] : count.connections) {
      INFO(name << ", the change at " << place);
      REQUIRE(found.contains(place));
      INFO("found " << found.at(place));
      CHECK(holds(kinds, found.at(place)));
      ++compared;
    }
  }
  CHECK(compared >= 150);
}

TEST_CASE("a pencil and the analysis find the same arpeggio fragments") {
  int compared = 0;
  for (const auto& [name, count] : hand_counts()) {
    if (count.arpeggios_to_bar == 0) continue;
    const auto found = arpeggios_found(analysed_piece(name), count.arpeggios_to_bar);
    for (const auto& [place, shapes] : count.arpeggios) {
      INFO(name << ", the fragment at " << place);
      const string there = found.contains(place) ? found.at(place) : "no fragment begins here";
      INFO("found " << there);
      CHECK(holds(shapes, there));
      ++compared;
    }
    for (const auto& [place, shape] : found) {
      INFO(name << " has " << shape << " at " << place << ", which the pencil does not");
      CHECK(count.arpeggios.contains(place));
    }
  }
  CHECK(compared >= 50);
}

TEST_CASE("second readings of the demo pieces are rare") {
  int seconds = 0;
  for (const auto& [name, count] : hand_counts())
    for (const auto* rows : {&count.figures, &count.connections, &count.arpeggios})
      seconds += static_cast<int>(std::ranges::count_if(*rows, [](const auto& row) { return row.second.size() > 1; }));
  CHECK(seconds <= 8);
}
