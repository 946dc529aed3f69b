#include "analyzer/measures/same_bars.hpp"

#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::bars_by_form;
using insideline::bars_by_number;
using insideline::Beats;
using insideline::NoteDifference;
using insideline::Role;
using insideline::same_bars;
using insideline::SameBar;
using insideline::SameBars;
using insideline::tests::analysed;
using insideline::tests::AnalysedLine;

namespace {

insideline::LaidLine laid(const AnalysedLine& line) {
  return {.solo = &line.solo, .labels = line.analysis.labels, .bars = bars_by_number(line.solo)};
}

SameBars beside(const AnalysedLine& first, const AnalysedLine& other) { return same_bars(laid(first), laid(other)); }

const char* word(NoteDifference difference) {
  switch (difference) {
    case NoteDifference::none: return "same";
    case NoteDifference::pitch: return "pitch";
    case NoteDifference::role: return "role";
    case NoteDifference::pitch_and_role: return "both";
    case NoteDifference::alone: return "alone";
  }
  return "";
}

/// "same pitch alone | same both": the notes of the first line, then those of the other.
std::string in_words(const SameBar& bar) {
  std::string words;
  for (const auto& note : bar.first) words += word(note.difference) + std::string(" ");
  words += "|";
  for (const auto& note : bar.other) words += std::string(" ") + word(note.difference);
  return words;
}

/// Both go on to a last note, so that a bar of rest is one.
SameBar first_bar(const std::string& first, const std::string& other) {
  const SameBars together = beside(analysed("C7@0", first + " | C4:4"), analysed("C7@0", other + " | C4:4"));
  REQUIRE(together.bars.size() == 2);
  return together.bars.front();
}

}  // namespace

TEST_CASE("the notes of two bars agree, have another pitch or role, or have no partner") {
  struct Row {
    const char* first;
    const char* other;
    const char* words;
    double difference;
  };
  const auto row = GENERATE(
      Row{"C4:1 E4:1 G4:2", "C4:1 E4:1 G4:2", "same same same | same same same", 0.0},
      Row{"C4:1 E4:1 G4:2", "C4:1 E4:2 G4:1", "same same alone | same same alone", 1.0 / 3},
      Row{"C4:2 E4:2", "E4:2 G4:2", "pitch pitch | pitch pitch", 0.5}, Row{"C4:4", "C5:4", "pitch | pitch", 0.5},
      Row{"C4:4", "r:4", "alone |", 1.0}, Row{"r:4", "r:4", "|", 0.0}, Row{"r:2 C4:2", "C4:4", "alone | alone", 1.0},
      Row{"C4:1 D4:0 E4:3", "C4:1 E4:3", "same same | same same", 0.0},
      Row{"C4:1 E4:1/3 F4:1/3 G4:1/3 C4:2", "C4:1 E4:1/2 G4:1/2 C4:2",
          "same same both alone same | same same both same", 1.0 / 3},
      Row{"C4:1/4 D4:1/4 E4:1/2 G4:3", "C4:1/2 E4:1/2 G4:3", "same alone same same | same same same", 1.0 / 7});
  INFO(row.first << " beside " << row.other);
  const SameBar bar = first_bar(row.first, row.other);
  CHECK(in_words(bar) == row.words);
  CHECK(bar.difference == Approx(row.difference).margin(1e-12));
}

TEST_CASE("the same note over another chord differs in its role") {
  auto first = analysed("C7@0", "E4:4");
  auto other = first;
  REQUIRE(other.analysis.labels.front().role == Role::chord_tone);
  other.analysis.labels.front().role = Role::tension;
  CHECK(in_words(beside(first, other).bars.front()) == "role | role");
  CHECK(beside(first, other).bars.front().difference == Approx(0.5));
  other.solo.notes.front().pitch = {{insideline::Step::d, 0}, 4};
  CHECK(in_words(beside(first, other).bars.front()) == "both | both");
  CHECK(beside(first, other).bars.front().difference == Approx(1.0));
}

TEST_CASE("turned round, two lines differ by as much") {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    const auto a = insideline::tests::random_line(seed, 8);
    const auto b = insideline::tests::random_line(seed + 100, 8);
    const auto first = analysed(a.solo, a.harmony);
    const auto other = analysed(b.solo, b.harmony);
    const SameBars there = beside(first, other);
    const SameBars back = beside(other, first);
    REQUIRE(there.bars.size() == back.bars.size());
    CHECK(there.by_difference == back.by_difference);
    for (std::size_t i = 0; i < there.bars.size(); ++i) {
      CHECK(there.bars[i].difference == Approx(back.bars[i].difference).margin(1e-12));
      CHECK(there.bars[i].difference >= 0.0);
      CHECK(there.bars[i].difference <= 1.0);
    }
  }
}

TEST_CASE("the most different bar comes first, and of equal ones that in which both play more") {
  const auto first = analysed("C7@0", "C4:4 | C4:4 | C4:2 r:2 | C4:1 E4:1 G4:1 C5:1 | C4:4");
  const auto other = analysed("C7@0", "C4:4 | r:4 | r:2 C4:2 | r:1/2 C4:1 E4:1 G4:1 C5:1/2 | E4:4");
  const SameBars together = beside(first, other);
  CHECK(together.by_difference == std::vector<std::size_t>{3, 2, 1, 4, 0});
  CHECK(together.to_talk_about == std::vector<std::size_t>{3, 2, 4});  // in bar 2 one of them rests
}

TEST_CASE("of two lines that are the same there is nothing to talk about") {
  const auto line = analysed("C7@0", "C4:4 | E4:4");
  CHECK(beside(line, line).to_talk_about.empty());
}

TEST_CASE("bars that only one of the lines has are left out, a pickup among them") {
  const auto first = analysed("C7@0", "G3:1 | C4:4 | E4:4", {}, -1);
  const auto other = analysed("C7@0", "C4:4 | E4:4 | G4:4");
  const SameBars together = beside(first, other);
  REQUIRE(together.bars.size() == 2);
  CHECK(together.bars.front().first_bar == 1);
  CHECK(together.bars.front().other_bar == 0);
  CHECK(in_words(together.bars.back()) == "same | same");
}

TEST_CASE("bars of two choruses stand at the same place of the form") {
  auto line = analysed("C7@0 F7@4 C7@8 F7@12", "G3:1 | C4:4 | F4:4 | E4:4 | A4:4", {}, -1);
  line.analysis.harmony.chorus_length = 8;
  line.analysis.harmony.choruses = 2;
  const std::vector<std::size_t> chorus_1{0, 1, 2};
  const std::vector<std::size_t> chorus_2{3, 4};
  const auto placed = bars_by_form(line.solo, line.analysis.harmony, chorus_1);
  REQUIRE(placed.size() == 3);
  CHECK(placed[0].place == Beats(-1));
  CHECK(placed[1].place == Beats(0));
  CHECK(bars_by_form(line.solo, line.analysis.harmony, chorus_2)[1].place == Beats(4));
  auto first = laid(line);
  first.bars = placed;
  auto other = laid(line);
  other.bars = bars_by_form(line.solo, line.analysis.harmony, chorus_2);
  const SameBars together = same_bars(first, other);
  REQUIRE(together.bars.size() == 2);
  CHECK(together.bars[0].first_bar == 1);
  CHECK(together.bars[0].other_bar == 3);
  CHECK(together.bars[1].difference == Approx(0.5));  // F and A over F7: another pitch, a chord tone both
}
