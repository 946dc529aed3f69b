#include "analyzer/takes/practice_log.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Assessment;
using insideline::LoggedTake;
using insideline::next_tempo;
using insideline::NextTempo;
using insideline::Share;

namespace {

LoggedTake take_of(const std::string& day, int right) {
  LoggedTake take;
  take.day = day;
  take.right = {right, 100};
  return take;
}

}  // namespace

TEST_CASE("a step faster is due when two takes on different days were ready") {
  const auto [takes, next] = GENERATE(table<std::vector<LoggedTake>, NextTempo>({
      {{take_of("2026-11-24", 95), take_of("2026-11-25", 96)}, NextTempo::faster},
      {{take_of("2026-11-25", 96), take_of("2026-11-25", 97)}, NextTempo::same},
      {{take_of("2026-11-24", 93), take_of("2026-11-25", 97)}, NextTempo::same},
      {{take_of("2026-11-25", 99)}, NextTempo::same},
      {{take_of("2026-11-24", 96), take_of("2026-11-25", 70)}, NextTempo::slower},
      {{take_of("2026-11-24", 96), take_of("2026-11-25", 82)}, NextTempo::same},
  }));
  CHECK(next_tempo(takes, 8) == next);
}

TEST_CASE("the log keeps what was right, and what of it went up and down") {
  Assessment assessment;
  assessment.all.right = {50, 64};
  assessment.restarts = 2;
  insideline::TakeGroup down;
  down.name = "down";
  down.right = {20, 32};
  assessment.by_direction = {down};
  const LoggedTake row = insideline::logged(assessment, "2026-11-25", "Ropewalk", "take.mid");
  CHECK(row.right == Share{50, 64});
  CHECK(row.down == Share{20, 32});
  CHECK(row.up == Share{});
  CHECK(row.restarts == 2);
  CHECK_FALSE(row.tempo_bpm);
}
