#include "analyzer/measures/densities.hpp"

#include "tests/support/analysed.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::ChordQuality;
using insideline::Density;
using insideline::Share;
using insideline::tests::analysed;

namespace {

// C up the scale in eighths, on the beat C E G B, off it D F A; then G7 with a held third.
constexpr const char* chords = "Cmaj7@0 G7@4";
constexpr const char* melody = "C4:1/2 D4:1/2 E4:1/2 F4:1/2 G4:1/2 A4:1/2 B4:1 B4:2 D5:1 C5:1";

Density sum_of(const std::vector<Density>& parts) {
  Density sum;
  for (const Density& part : parts) {
    sum.notes += part.notes;
    sum.chord_tones += part.chord_tones;
    sum.strict.count += part.strict.count;
    sum.duration += part.duration;
  }
  return sum;
}

}  // namespace

TEST_CASE("chord tones are counted on and off the beat") {
  const auto densities = analysed(chords, melody).analysis.densities;
  CHECK(densities.all.notes == 10);
  CHECK(densities.all.strict == Share{6, 10});
  CHECK(densities.on_beat.strict == Share{6, 7});
  CHECK(densities.off_beat.strict == Share{0, 3});
  CHECK(densities.on_strong_beats.strict == Share{4, 4});  // C G, B D: beats 1 and 3
  CHECK(densities.on_chord_changes.strict == Share{1, 1});
  CHECK(densities.all.duration == Approx(8.0));
}

TEST_CASE("the four roles add up to the notes in every group") {
  for (unsigned seed = 1; seed <= 5; ++seed) {
    const auto random = insideline::tests::random_line(seed, 12);
    const auto densities = insideline::tests::analysed(random.solo, random.harmony).analysis.densities;
    for (const Density& group : {densities.all, densities.on_beat, densities.off_beat, densities.on_strong_beats})
      CHECK(group.notes == group.chord_tones + group.tensions + group.non_chord_tones + group.outside);
    CHECK(densities.all.notes == densities.on_beat.notes + densities.off_beat.notes);
  }
}

TEST_CASE("phrases, choruses, qualities and degrees each hold all notes once") {
  const auto random = insideline::tests::random_line(4, 16);
  const auto densities = insideline::tests::analysed(random.solo, random.harmony).analysis.densities;
  std::vector<Density> qualities;
  for (const auto& row : densities.by_quality) qualities.push_back(row.density);
  for (const Density& sum : {sum_of(densities.by_phrase), sum_of(densities.by_chorus), sum_of(qualities)}) {
    CHECK(sum.notes == densities.all.notes);
    CHECK(sum.chord_tones == densities.all.chord_tones);
    CHECK(sum.strict.count == densities.all.strict.count);
    CHECK(sum.duration == Approx(densities.all.duration));
  }
  int by_degree = 0;
  for (const auto& row : densities.by_degree) by_degree += row.count;
  CHECK(by_degree == densities.all.notes);
}

TEST_CASE("degrees and qualities are sorted and counted") {
  const auto densities = analysed(chords, melody).analysis.densities;
  REQUIRE(densities.by_quality.size() == 2);
  CHECK(densities.by_quality[0].quality == ChordQuality::major);
  CHECK(densities.by_quality[0].density.notes == 7);
  CHECK(densities.by_quality[1].quality == ChordQuality::dominant);
  CHECK(densities.by_quality[1].density.notes == 3);
  REQUIRE(densities.by_degree.size() >= 2);
  CHECK(to_string(densities.by_degree[0].degree) == "1");
  CHECK(densities.by_degree[0].count == 1);
  const auto third = std::ranges::find(densities.by_degree, insideline::Degree{3, 0}, &insideline::DegreeCount::degree);
  REQUIRE(third != densities.by_degree.end());
  CHECK(third->count == 2);
  CHECK(third->on_beat == 2);
  CHECK(third->duration == Approx(2.5));
}

TEST_CASE("grace notes and notes under N.C. count nowhere") {
  const auto densities = analysed("C@0 N.C.@4", "B3:0 C4:2 D4:0 E4:2 F4:2 G4:2").analysis.densities;
  CHECK(densities.all.notes == 2);
  CHECK(densities.all.strict == Share{2, 2});
}

TEST_CASE("a note pushed ahead of its chord is a chord tone as heard and not strictly") {
  const auto densities =
      analysed("Dm7@0 G7@4", "D4:1/2 F4:1/2 A4:1/2 C5:1/2 A4:1/2 F4:1/2 C5:1/2 B4:1/2 B4~:1 D5:1 F5:2")
          .analysis.densities;
  CHECK(densities.all.chord_tones == 10);
  CHECK(densities.all.strict == Share{9, 10});
  CHECK(densities.by_quality.back().density.notes == 3);
}
