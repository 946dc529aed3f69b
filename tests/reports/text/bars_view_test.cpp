#include "reports/text/bars_view.hpp"

#include "reports/text/display_width.hpp"
#include "tests/reports/sample_report.hpp"
#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <sstream>
#include <string>
#include <vector>

namespace insideline::tests {
namespace {

using reports::bars_view;
using reports::Colour;

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

/// A line over one chord, each note its root, to look at rhythm alone.
reports::Report rhythm_report(std::string_view melody, const Beats& start_beat = 1) {
  reports::Report report;
  report.solo = solo_from(melody, {}, start_beat);
  report.analysis.harmony = harmony_from("C@0", report.solo);
  NoteLabel label;
  label.chord = 0;
  label.governor = 0;
  label.degree = Degree{1, 0};
  label.role = Role::chord_tone;
  label.figure = Figure::root;
  report.analysis.labels.assign(report.solo.notes.size(), label);
  return report;
}

}  // namespace

TEST_CASE("bars are drawn with chord, beat, note, degree and marks under each other") {
  CHECK(bars_view(sample_report(), {0, 1, 2}, Colour::off) ==
        "bar          1                         2                  3\n"
        "chord      │ Dm7                     │ G7               │ Cmaj7\n"
        "beat       │ 1  &  2  &  3   4  &    │ 1    2 3  &   &  │ 1 gr   3\n"
        "note       │ D4 F4 A4 C5 E5  D5 Db5  │ B4   · F4 A4  E4 │ ~ Eb4  D4\n"
        "degree     │ 1  b3 5  b7 [9] 1  (7)  │ 3      b7 [9] 3» │   (b3) 9!\n"
        "motion     │                    pass │                  │   appr ?\n"
        "arpeggio     └─ up ────┘\n"
        "connection │                         │ 7>3*             │\n"
        "\n");
}

TEST_CASE("a section has its letter beside the number of its first bar, behind a double bar line") {
  reports::Report report = rhythm_report("C4:4 | C4:4 | C4:4");
  report.analysis.harmony.sections = {
      {.name = "A", .onset = 0, .duration = 4, .chorus = 1, .first_bar = 1, .last_bar = 1},
      {.name = "Bridge", .onset = 4, .duration = 8, .chorus = 1, .first_bar = 2, .last_bar = 3}};
  report.solo.double_bars = {8};
  const auto lines = lines_of(bars_view(report, {0, 1, 2}, Colour::off));
  REQUIRE(lines.size() > 1);
  CHECK(lines[0] == "bar          1  [A]   2  [Bridge]   3");
  CHECK(lines[1] == "chord      │ C      ║ C           ║ C");
}

TEST_CASE("rows with nothing to say are left out") {
  const auto lines = lines_of(bars_view(rhythm_report("C4:4"), {0}, Colour::off));
  REQUIRE(lines.size() == 6);
  CHECK(lines[4] == "degree     │ 1");
  CHECK(lines[5].empty());
}

TEST_CASE("beats are counted as players count them") {
  const auto [melody, beats] = GENERATE(table<std::string, std::string>({
      {"C4:1/4 D4:1/4 E4:1/4 F4:1/4 G4:3", "beat       │ 1  e  &  a  2"},
      {"C4:1/3 D4:1/3 E4:1/3 F4:3", "beat       │ 1  1/3 2/3 2"},
      {"C4:1/2 D4:1/2 r:3", "beat       │ 1  &  2"},
      {"C4:1/64 D4:255/64", "beat       │ 1  ."},
  }));
  CHECK(lines_of(bars_view(rhythm_report(melody), {0}, Colour::off))[2] == beats);
}

TEST_CASE("a pickup is named, and a held note shows as held in the next bar") {
  const auto lines = lines_of(bars_view(rhythm_report("C4:1 D4:4 D4~:2 E4:2", -1), {0, 1, 2}, Colour::off));
  CHECK(lines[0] == "bar          pickup   1    2");
  CHECK(lines[3] == "note       │ C4     │ D4 │ ~ E4");
}

TEST_CASE("lines break between bars, and inside a bar that is too long for one") {
  std::string melody;
  for (int sixteenth = 0; sixteenth < 64; ++sixteenth) melody += "C#4:1/16 ";
  const std::string view = bars_view(rhythm_report(melody), {0}, Colour::off);
  int rows_of_notes = 0;
  int notes = 0;
  for (const std::string& line : lines_of(view)) {
    CHECK(reports::display_width(line) <= 80);
    if (!line.starts_with("note")) continue;
    ++rows_of_notes;
    for (std::size_t at = line.find("C#4"); at != std::string::npos; at = line.find("C#4", at + 1)) ++notes;
  }
  CHECK(rows_of_notes > 1);
  CHECK(notes == 64);
}

TEST_CASE("a long chord symbol pushes the next one aside but not the notes under it") {
  reports::Report report = rhythm_report("C4:1 D4:1 E4:1 F4:1");
  SoundingChord second = report.analysis.harmony.chords[0];
  report.analysis.harmony.chords[0].chord.symbol = "C13(b9,#11)";
  report.analysis.harmony.chords[0].duration = 2;
  second.onset = 2;
  second.duration = 2;
  second.chord.symbol = "F7";
  report.analysis.harmony.chords.push_back(second);
  const auto lines = lines_of(bars_view(report, {0}, Colour::off));
  CHECK(lines[1] == "chord      │ C13(b9,#11) F7");
  CHECK(lines[3] == "note       │ C4 D4       E4 F4");
}

}  // namespace insideline::tests
