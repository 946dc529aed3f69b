#include "analyzer/measures/section_figures.hpp"

#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using insideline::Analysis;
using insideline::analyze;
using insideline::Beats;
using insideline::Harmony;
using insideline::SectionFigures;
using insideline::Share;
using insideline::Solo;
using insideline::SoundingSection;
using insideline::tests::harmony_from;
using insideline::tests::random_line;
using insideline::tests::solo_from;

namespace {

SoundingSection section(const std::string& name, int first_bar, int last_bar) {
  return {.name = name,
          .onset = 4 * (first_bar - 1),
          .duration = 4 * (last_bar - first_bar + 1),
          .chorus = 1,
          .first_bar = first_bar,
          .last_bar = last_bar};
}

/// "A 2x 2 bars 3/4": name, how often, bars, chord tones of notes; for each name.
std::string figures(const Analysis& analysis) {
  std::string text;
  for (const SectionFigures& row : analysis.section_figures)
    text += (text.empty() ? "" : ", ") + row.name + " " + std::to_string(row.times) + "x " + std::to_string(row.bars) +
            " bars " + std::to_string(row.density.chord_tones) + "/" + std::to_string(row.density.notes);
  return text;
}

}  // namespace

TEST_CASE("the A's are counted together, and the bridge by itself") {
  const Solo solo = solo_from("C4:2 E4:2 F#4:2 G4:2 C4:1 E4:1 G4:1 E4:1");
  Harmony harmony = harmony_from("C@0", solo);
  harmony.sections = {section("A", 1, 1), section("B", 2, 2), section("A", 3, 3)};
  CHECK(figures(analyze(solo, harmony)) == "A 2x 2 bars 6/6, B 1x 1 bars 1/2");
}

TEST_CASE("a note played ahead of the chord of the next section counts there") {
  const Solo solo = solo_from("D4:1/2 F4:1/2 A4:1/2 C5:1/2 A4:1/2 F4:1/2 D4:1/2 B4:1/2 B4:2 G4:2");
  Harmony harmony = harmony_from("Dm7@0 G7@4", solo);
  harmony.sections = {section("A", 1, 1), section("B", 2, 2)};
  const Analysis analysis = analyze(solo, harmony);
  REQUIRE(analysis.labels[7].placement == insideline::Placement::anticipation);
  CHECK(figures(analysis) == "A 1x 1 bars 7/7, B 1x 1 bars 3/3");
}

TEST_CASE("a connection counts in the section whose chord it leads into") {
  const Solo solo = solo_from("E4:2 G4:2 F4:2 A4:2 E4:4");
  Harmony harmony = harmony_from("C@0 F@4 C@8", solo);
  harmony.sections = {section("A", 1, 1), section("B", 2, 3)};
  const Analysis analysis = analyze(solo, harmony);
  REQUIRE(analysis.section_figures.size() == 2);
  CHECK(analysis.section_figures[0].nearest_taken_share.of == 0);
  CHECK(analysis.section_figures[1].nearest_taken_share.of == 2);
}

TEST_CASE("without letters there are no figures by section, and bars before the first letter count in none") {
  const Solo solo = solo_from("C4:4 E4:4");
  Harmony harmony = harmony_from("C@0", solo);
  CHECK(analyze(solo, harmony).section_figures.empty());
  harmony.sections = {section("A", 2, 2)};
  CHECK(figures(analyze(solo, harmony)) == "A 1x 1 bars 1/1");
}

TEST_CASE("a section over the whole solo has every note that counts") {
  const unsigned seed = GENERATE(range(1U, 9U));
  auto line = random_line(seed, 8);
  line.harmony.sections = {section("A", 1, 3), section("B", 4, 8)};
  const Analysis analysis = analyze(line.solo, line.harmony);
  int notes = 0;
  Share arpeggio;
  for (const SectionFigures& row : analysis.section_figures) {
    notes += row.density.notes;
    arpeggio = {.count = arpeggio.count + row.arpeggio_share.count, .of = arpeggio.of + row.arpeggio_share.of};
  }
  CHECK(notes == analysis.densities.all.notes);
  CHECK(arpeggio == analysis.summary.arpeggio_share);
}
