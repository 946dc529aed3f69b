#include "reports/html/map_layout.hpp"

#include "tests/reports/sample_report.hpp"
#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Beats;
using insideline::reports::Box;
using insideline::reports::degree_size;
using insideline::reports::lay_out_map;
using insideline::reports::lettering_width;
using insideline::reports::MapLayout;
using insideline::reports::mark_radius;
using insideline::reports::overlap;
using insideline::reports::Report;
using insideline::reports::shown_degree;
using insideline::tests::harmony_from;
using insideline::tests::random_line;
using insideline::tests::sample_report;
using insideline::tests::solo_from;

namespace {

Report analysed_report(insideline::Solo solo, const insideline::Harmony& harmony) {
  Report report;
  report.solo = std::move(solo);
  report.analysis = insideline::analyze(report.solo, harmony);
  return report;
}

Box degree_box(const Report& report, const MapLayout& layout, std::size_t note) {
  const double width = lettering_width(shown_degree(report.analysis.labels[note]), degree_size);
  return {.left = layout.note_x[note] + layout.degrees[note].dx - width / 2,
          .top = layout.note_y[note] + layout.degrees[note].dy - degree_size / 2,
          .width = width,
          .height = degree_size};
}

Box mark_box(const MapLayout& layout, std::size_t note) {
  return {.left = layout.note_x[note] - mark_radius,
          .top = layout.note_y[note] - mark_radius,
          .width = 2 * mark_radius,
          .height = 2 * mark_radius};
}

/// Pairs of degrees that lie on each other or on a mark.
int collisions(const Report& report, const MapLayout& layout) {
  int found = 0;
  for (const auto& system : layout.systems)
    for (std::size_t i = system.first_note; i < system.end_note; ++i)
      for (std::size_t k = system.first_note; k < system.end_note; ++k) {
        if (overlap(degree_box(report, layout, i), mark_box(layout, k))) ++found;
        if (k > i && overlap(degree_box(report, layout, i), degree_box(report, layout, k))) ++found;
      }
  return found;
}

}  // namespace

TEST_CASE("time goes across and pitch goes up") {
  const Report report = sample_report();
  const MapLayout layout = lay_out_map(report);
  REQUIRE(layout.systems.size() == 1);
  CHECK(layout.note_x[1] - layout.note_x[0] == Approx(layout.sizes[0].per_quarter / 2));
  CHECK(layout.note_y[1] - layout.note_y[0] == Approx(-3 * layout.sizes[0].per_semitone));  // D4 F4
  CHECK(layout.note_x.front() > layout.sizes[0].left);
}

TEST_CASE("a grace note stands before the note it leads to") {
  const Report report = sample_report();
  const MapLayout layout = lay_out_map(report);
  CHECK(report.solo.notes[11].grace);
  CHECK(layout.note_x[11] < layout.note_x[12]);
  CHECK(report.solo.notes[11].onset == report.solo.notes[12].onset);
}

TEST_CASE("no degree lies on another or on a mark, in eighths and sixteenths, by step and by leap") {
  const std::string melody =
      GENERATE(as<std::string>(), "C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:1/2 A4:1/2 B4:1/2 C5:1/2",
               "C4:1/2 C#4:1/2 D4:1/2 Eb4:1/2 E4:1/2 F4:1/2 F#4:1/2 G4:1/2",
               "C5:1/4 B4:1/4 Bb4:1/4 A4:1/4 Ab4:1/4 G4:1/4 F#4:1/4 F4:1/4 E4:1/4 Eb4:1/4 D4:1/4 Db4:1/4 C4:1",
               "C4:1/4 C5:1/4 Db4:1/4 Db5:1/4 D4:1/4 D5:1/4 Eb4:1/4 Eb5:1/4 C5:1/2 Db5:1/2 C5:1/2 Db5:1/2",
               "C4:1/3 D4:1/3 Eb4:1/3 D4:1/3 Db4:1/3 C4:1/3 B3:1/3 Bb3:1/3 A3:1/3 G#3:1/3 A3:1/3 Bb3:1/3");
  insideline::Solo solo = solo_from(melody);
  const auto harmony = harmony_from("C7@0", solo);
  const Report report = analysed_report(std::move(solo), harmony);
  CAPTURE(melody);
  CHECK(collisions(report, lay_out_map(report)) == 0);
}

TEST_CASE("in random lines no degree lies on another") {
  const unsigned seed = GENERATE(1U, 2U, 3U, 4U, 5U);
  auto line = random_line(seed, 16);
  const Report report = analysed_report(std::move(line.solo), line.harmony);
  CAPTURE(seed);
  CHECK(collisions(report, lay_out_map(report)) == 0);
}

TEST_CASE("chord symbols that would touch stand in two rows") {
  insideline::Solo solo = solo_from("C4:1 D4:1 E4:1 F4:1 | C4:4 | C4:4 | C4:4");
  const auto harmony = harmony_from("Gbmaj7(#11)@0 Abm7b5@1 C@2 F@3 Bb@4 Eb@8 Ab@12", solo);
  const Report report = analysed_report(std::move(solo), harmony);
  const MapLayout layout = lay_out_map(report);
  CHECK(layout.chord_rows == std::vector<int>{0, 1, 0, 0, 0, 0, 0});
}

TEST_CASE("a system is no higher than what stands in it") {
  insideline::Solo solo = solo_from("C4:1 E4:1 G4:1 r:1 | C4:4 | C4:4 | C4:4 | C4:4");
  const auto harmony = harmony_from("C@0", solo);
  const Report report = analysed_report(std::move(solo), harmony);
  const MapLayout layout = lay_out_map(report);
  REQUIRE(report.analysis.arpeggios.size() == 1);
  REQUIRE(layout.sizes.size() == 2);
  CHECK(layout.sizes[0].height > layout.sizes[1].height);  // the bracket is in the first
}

TEST_CASE("degrees and cells are written with the signs of the terminal and printed accidentals") {
  const Report report = sample_report();
  CHECK(shown_degree(report.analysis.labels[1]) == "♭3");
  CHECK(shown_degree(report.analysis.labels[4]) == "[9]");
  CHECK(shown_degree(report.analysis.labels[6]) == "(7)");
  CHECK(shown_degree(report.analysis.labels[10]) == "3»");
  CHECK(shown_degree(report.analysis.labels[12]) == "9!");
  CHECK(insideline::reports::shown_cell(report.analysis.arpeggios[0]) == "up 1 ♭3 5 ♭7");
}
