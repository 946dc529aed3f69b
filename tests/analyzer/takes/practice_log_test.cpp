#include "analyzer/takes/practice_log.hpp"

#include "tests/support/melody.hpp"

#include <optional>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Assessment;
using insideline::Attempt;
using insideline::LoggedTake;
using insideline::next_tempo;
using insideline::NextTempo;
using insideline::progress_of;
using insideline::ready_tempo;
using insideline::Share;
using insideline::Struck;
using insideline::TakeFault;
using insideline::tests::solo_from;
using Takes = std::vector<LoggedTake>;

namespace {

LoggedTake take_of(const std::string& day, int right, std::optional<double> tempo_bpm = 72.0) {
  LoggedTake take;
  take.day = day;
  take.tempo_bpm = tempo_bpm;
  take.right = {right, 100};
  return take;
}

LoggedTake begun_again(LoggedTake take) {
  take.restarts = 1;
  return take;
}

LoggedTake only_a_part(LoggedTake take) {
  take.whole = false;
  return take;
}

LoggedTake of(LoggedTake take, const std::string& player, const std::string& sheet_id) {
  take.player = player;
  take.sheet_id = sheet_id;
  return take;
}

/// The first `tried` notes were struck.
Assessment assessed(std::size_t tried) {
  Assessment assessment;
  for (std::size_t i = 0; i < tried; ++i) assessment.alignment.attempts.push_back({i, i, Struck::right});
  return assessment;
}

}  // namespace

TEST_CASE("a step faster is due when takes of two days at one tempo were ready") {
  const auto [takes, next] = GENERATE(table<Takes, NextTempo>({
      {{take_of("2026-11-24", 95), take_of("2026-11-25", 96)}, NextTempo::faster},
      {{take_of("2026-11-25", 96), take_of("2026-11-25", 97)}, NextTempo::same},
      {{take_of("2026-11-24", 93), take_of("2026-11-25", 97)}, NextTempo::same},
      {{take_of("2026-11-25", 99)}, NextTempo::same},
      {{take_of("2026-11-24", 96), take_of("2026-11-25", 70)}, NextTempo::slower},
      {{take_of("2026-11-24", 96), take_of("2026-11-25", 82)}, NextTempo::same},
  }));
  CHECK(next_tempo(takes, 8) == next);
}

TEST_CASE("a first take at a new tempo is not ready on two days because yesterday's slower one was") {
  const auto [yesterday, today, next] = GENERATE(table<std::optional<double>, std::optional<double>, NextTempo>({
      {60.0, 72.0, NextTempo::same},
      {69.0, 72.0, NextTempo::same},  // the next mark of a metronome
      {71.0, 72.0, NextTempo::faster},
      {72.0, 60.0, NextTempo::same},
      {std::nullopt, 72.0, NextTempo::same},
      {std::nullopt, std::nullopt, NextTempo::same},
  }));
  CHECK(next_tempo(Takes{take_of("2026-11-24", 99, yesterday), take_of("2026-11-25", 99, today)}, 8) == next);
}

TEST_CASE("a take in no one tempo, an uneven one, or one with notes added is not ready, however right its notes") {
  const auto with = [](auto change) {
    LoggedTake take = take_of("2026-11-25", 100);
    change(take);
    return take;
  };
  const auto [today, fault, next] = GENERATE_COPY(table<LoggedTake, TakeFault, NextTempo>({
      {with([](LoggedTake& take) { take.tempo_strays_percent = 6.0; }), TakeFault::unsteady, NextTempo::steadier},
      {with([](LoggedTake& take) { take.tempo_jumps = 1; }), TakeFault::unsteady, NextTempo::steadier},
      {with([](LoggedTake& take) { take.spread_percent = 13.0; }), TakeFault::uneven, NextTempo::steadier},
      {with([](LoggedTake& take) { take.added = 6; }), TakeFault::notes_added, NextTempo::slower},
      {with([](LoggedTake& take) {
         take.tempo_strays_percent = 5.0;
         take.tempo_jumps = 0;
         take.spread_percent = 12.0;
         take.added = 5;
       }),
       TakeFault::none, NextTempo::faster},
      {with([](LoggedTake&) {}), TakeFault::none, NextTempo::faster},  // of an old log, which did not look
  }));
  CHECK(fault_of(today) == fault);
  const Takes takes{take_of("2026-11-24", 100), today};
  CHECK(next_tempo(takes, 8) == next);
  CHECK(ready_tempo(takes, 8).has_value() == (fault == TakeFault::none));
}

TEST_CASE("a note that was added is a mistake in the log as in the verdict") {
  LoggedTake take = take_of("2026-11-25", 95);
  CHECK(insideline::note_readiness(take, 8) == insideline::Readiness::ready);
  take.added = 5;
  CHECK(insideline::note_readiness(take, 8) == insideline::Readiness::unsettled);
}

TEST_CASE("the log keeps what the verdict needs of tempo, evenness and added notes") {
  const auto sheet = solo_from("C4:1 E4:1 G4:1 B4:1");
  Assessment assessment = assessed(4);
  assessment.added = 3;
  insideline::TempoCourse tempo;
  tempo.furthest_percent = -7.5;
  tempo.jumps = {{"9", 96.0, 110.0}};
  assessment.tempo = tempo;
  const LoggedTake row = insideline::logged(assessment, sheet);
  CHECK(row.added == 3);
  CHECK(row.tempo_strays_percent == 7.5);
  CHECK(row.tempo_jumps == 1);
  CHECK_FALSE(insideline::logged(assessed(4), sheet).tempo_jumps);
}

TEST_CASE("takes at another tempo in between do not hide the day before") {
  const Takes takes{take_of("2026-11-23", 99, 72.0), take_of("2026-11-24", 99, 60.0), take_of("2026-11-25", 99, 72.0)};
  CHECK(next_tempo(takes, 8) == NextTempo::faster);
  CHECK(ready_tempo(takes, 8) == 72.0);
}

TEST_CASE("a broken take never counts, neither for nor against") {
  const LoggedTake yesterday = take_of("2026-11-24", 99);
  const LoggedTake today = take_of("2026-11-25", 99);
  const auto [takes, next] = GENERATE_COPY(table<Takes, NextTempo>({
      {{begun_again(yesterday), today}, NextTempo::same},
      {{only_a_part(yesterday), today}, NextTempo::same},
      {{yesterday, begun_again(today)}, NextTempo::whole_first},
      {{yesterday, only_a_part(today)}, NextTempo::whole_first},
      {{only_a_part(take_of("2026-11-24", 20))}, NextTempo::whole_first},
      {{yesterday, only_a_part(take_of("2026-11-24", 20)), today}, NextTempo::faster},
  }));
  CHECK(next_tempo(takes, 8) == next);
}

TEST_CASE("the tempo that was reached is the fastest that was ready on two days") {
  const Takes takes{take_of("2026-11-20", 99, 60.0), take_of("2026-11-21", 98, 60.5), take_of("2026-11-22", 99, 72.0),
                    take_of("2026-11-23", 60, 72.0)};
  CHECK(ready_tempo(takes, 8) == 60.5);
  CHECK_FALSE(ready_tempo(Takes{take_of("2026-11-20", 99, 60.0)}, 8));
  SECTION("a day that ended badly at that tempo was not ready") {
    const Takes spoilt{take_of("2026-11-20", 99), take_of("2026-11-21", 99), take_of("2026-11-21", 50)};
    CHECK_FALSE(ready_tempo(spoilt, 8));
  }
}

TEST_CASE("the log keeps what was right, and what of it went up and down") {
  const auto sheet = solo_from("C4:1 E4:1 G4:1 B4:1");
  Assessment assessment = assessed(4);
  assessment.all.right = {50, 64};
  assessment.restarts = 2;
  insideline::TakeGroup down;
  down.name = "down";
  down.right = {20, 32};
  assessment.by_direction = {down};
  const LoggedTake row = insideline::logged(assessment, sheet);
  CHECK(row.right == Share{50, 64});
  CHECK(row.down == Share{20, 32});
  CHECK(row.up == Share{});
  CHECK(row.restarts == 2);
  CHECK_FALSE(row.tempo_bpm);
}

TEST_CASE("the tempo of a take is the one that was played, else the one its file says") {
  const auto sheet = solo_from("C4:1 E4:1 G4:1 B4:1");
  auto take = sheet;
  take.tempo_bpm = 90.0;
  Assessment assessment = assessed(4);
  CHECK(insideline::logged(assessment, take).tempo_bpm == 90.0);
  assessment.evenness = {.notes = 4, .tempo_bpm = 61.5, .spread_ms = 9.0, .spread_percent = 1.0};
  CHECK(insideline::logged(assessment, take).tempo_bpm == 61.5);
}

TEST_CASE("a take that broke off or left bars out is kept as no whole take") {
  Assessment assessment = assessed(4);
  const auto sheet = solo_from("C4:1 E4:1 G4:1 B4:1");
  CHECK_FALSE(*insideline::logged(assessment, sheet).whole);
  assessment.complete = true;
  CHECK(*insideline::logged(assessment, sheet).whole);
}

TEST_CASE("progress goes player by player and sheet by sheet, and names of sheets do not matter") {
  LoggedTake renamed = of(take_of("2026-11-24", 97), "Anke", "a");
  renamed.sheet = "another name";
  const Takes takes{of(take_of("2026-11-20", 99), "Bjarne", "a"), of(take_of("2026-11-21", 96), "Anke", "a"),
                    of(take_of("2026-11-21", 50), "Anke", "b"), renamed};
  const auto players = progress_of(takes, 8);
  REQUIRE(players.size() == 2);
  CHECK(players[0].player == "Anke");
  CHECK(players[0].takes == 3);
  CHECK(players[0].days == 2);
  CHECK(players[0].first_day == "2026-11-21");
  CHECK(players[0].last_day == "2026-11-24");
  REQUIRE(players[0].sheets.size() == 2);
  CHECK(players[0].sheets[0].takes == Takes{takes[1], renamed});
  CHECK(players[0].sheets[0].next == NextTempo::faster);
  CHECK(players[0].sheets[0].ready_bpm == 72.0);
  CHECK(players[0].sheets[1].next == NextTempo::slower);
  CHECK(last_take(players[0]) == renamed);
  CHECK(players[1].sheets[0].next == NextTempo::same);
}

TEST_CASE("takes of an old log, which has names of sheets only, go by those") {
  LoggedTake one = of(take_of("2026-11-20", 99), "", "");
  one.sheet = "Quay Steps";
  LoggedTake other = of(take_of("2026-11-21", 99), "", "");
  other.sheet = "Ropewalk";
  const auto players = progress_of(Takes{one, other}, 8);
  REQUIRE(players.size() == 1);
  CHECK(players[0].sheets.size() == 2);
}
