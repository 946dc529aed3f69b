#include "analyzer/takes/take_verdict.hpp"

#include <catch2/catch.hpp>

using insideline::Assessment;
using insideline::Readiness;
using insideline::verdict_of;

namespace {

Assessment flawless() {
  Assessment take;
  take.all.right = {100, 100};
  take.coverage.bars = {32, 32};
  take.complete = true;
  take.tempo = {.tempi = {{"1", 120.0}}, .mean_bpm = 120.0, .start_bpm = 120.0, .end_bpm = 120.0};
  take.evenness = {.notes = 100, .tempo_bpm = 120.0, .spread_ms = 10.0, .spread_percent = 2.0};
  return take;
}

}  // namespace

TEST_CASE("only a take with nothing against it is ready") {
  CHECK(verdict_of(flawless(), 8).readiness == Readiness::ready);
  Assessment part = flawless();
  part.coverage.bars = {8, 32};
  part.coverage.silent = {{"9", "32"}};
  part.complete = false;
  CHECK(verdict_of(part, 8).readiness == Readiness::not_ready);
  CHECK(verdict_of(part, 8).notes == Readiness::ready);
  CHECK_FALSE(verdict_of(part, 8).whole);
  Assessment broken = flawless();
  broken.interruptions = {{.bar = "5", .on_in = "3"}};
  broken.complete = false;
  CHECK(verdict_of(broken, 8).readiness == Readiness::not_ready);
  CHECK_FALSE(verdict_of(broken, 8).unbroken);
  Assessment rushed = flawless();
  rushed.tempo->furthest_percent = 5.5;
  CHECK(verdict_of(rushed, 8).readiness == Readiness::not_ready);
  CHECK_FALSE(verdict_of(rushed, 8).steady);
  Assessment uneven = flawless();
  uneven.evenness->spread_percent = 12.5;
  CHECK(verdict_of(uneven, 8).readiness == Readiness::not_ready);
  CHECK_FALSE(verdict_of(uneven, 8).even);
}

TEST_CASE("each note that was added is a mistake in the count") {
  Assessment take = flawless();
  take.added = 5;
  CHECK(verdict_of(take, 8).right.of == 105);
  CHECK(verdict_of(take, 8).readiness == Readiness::ready);
  take.added = 13;
  CHECK(verdict_of(take, 8).notes == Readiness::unsettled);
}

TEST_CASE("more than one added note in twenty is not what is written, however many are right") {
  Assessment take = flawless();
  take.added = 5;
  CHECK(verdict_of(take, 8).as_written);
  take.added = 6;
  CHECK_FALSE(verdict_of(take, 8).as_written);
  CHECK(verdict_of(take, 8).readiness == Readiness::not_ready);
}

TEST_CASE("a take without times is judged by its notes and bars") {
  Assessment score = flawless();
  score.tempo.reset();
  score.evenness.reset();
  CHECK(verdict_of(score, 8).readiness == Readiness::ready);
}
