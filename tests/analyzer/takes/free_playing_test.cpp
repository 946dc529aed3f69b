#include "analyzer/takes/free_playing.hpp"

#include "analyzer/alignment.hpp"
#include "tests/support/analysed.hpp"
#include "tests/support/drilled.hpp"
#include "tests/support/melody.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::BarRun;
using insideline::free_playing;
using insideline::FreePlaying;
using insideline::is_played_out;
using insideline::Share;
using insideline::Solo;

namespace {

/// Over eight bars that come round again.
FreePlaying over_eight_bars(const std::string& melody) {
  const Solo take = insideline::tests::solo_from(melody);
  const auto harmony =
      insideline::lay_out(insideline::tests::chart("Dm7 | G7 | Cmaj7 | A7 | Dm7 | G7 | Cmaj7 | %"), take);
  return free_playing(take, insideline::tests::analysed(take, harmony).analysis);
}

}  // namespace

TEST_CASE("bars that got nothing are named, also those of the form that were never reached") {
  const FreePlaying found = over_eight_bars("D4:4 r:4 C4:2 E4:2 r:4 r:4 G4:4");
  CHECK(found.bars == Share{3, 8});
  CHECK(found.silent == std::vector<BarRun>{{"2", "2"}, {"4", "5"}, {"7", "8"}});
  CHECK_FALSE(is_played_out(found));
}

TEST_CASE("a bar in which a note is held on got one") {
  const FreePlaying found = over_eight_bars("D4:8 C4:8 F4:8 E4:4 r:4");
  CHECK(found.bars == Share{7, 8});
  CHECK(found.silent == std::vector<BarRun>{{"8", "8"}});
  CHECK(is_played_out(found));
}

TEST_CASE("a last note on the first bar of the next chorus begins no chorus") {
  CHECK(over_eight_bars("D4:8 C4:8 F4:8 E4:8 D4:4").bars == Share{9, 9});
  CHECK(over_eight_bars("D4:8 C4:8 F4:8 E4:8 D4:4 F4:4").bars == Share{10, 16});
}
