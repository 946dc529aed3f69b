#include "reports/json_writer.hpp"
#include "reports/practice_log/log_report.hpp"
#include "reports/practice_log/words.hpp"

#include <utility>

namespace insideline::reports {
namespace {

const char* word(NextTempo next) {
  switch (next) {
    case NextTempo::whole_first: return "the whole sheet first";
    case NextTempo::slower: return "slower";
    case NextTempo::steadier: return "steadier";
    case NextTempo::same: return "same tempo";
    case NextTempo::faster: return "faster";
  }
  return "";
}

void write_player(JsonWriter& json, const PlayerProgress& player) {
  json.member("player", player.player);
  json.member("takes", player.takes);
  json.member("days", player.days);
  json.member("first_day", player.first_day);
  json.member("last_day", player.last_day);
  json.member("sheets", sheets_ready(player).of);
  json.member("sheets_ready", sheets_ready(player).count);
}

void write_sheet(JsonWriter& json, const SheetProgress& sheet) {
  const LoggedTake& last = sheet.takes.back();
  json.member("player", last.player);
  json.member("sheet", last.sheet);
  json.member("sheet_id", last.sheet_id);
  json.member("takes", sheet.takes.size());
  json.member("ready_bpm", sheet.ready_bpm);
  json.member("next", word(sheet.next));
}

void write_take(JsonWriter& json, const LoggedTake& take, int bound) {
  json.member("player", take.player);
  json.member("day", take.day);
  json.member("sheet", take.sheet);
  json.member("sheet_id", take.sheet_id);
  json.member("take", take.take);
  json.member("tempo_bpm", take.tempo_bpm);
  json.member("verdict", verdict_word(take, bound));
  json.member("counts", !is_broken(take));
  json.member("right", take.right);
  json.member("up", take.up);
  json.member("down", take.down);
  json.member("restarts", take.restarts);
  json.member("whole", take.whole);
  json.member("spread_percent", take.spread_percent);
  json.member("added", take.added);
  json.member("tempo_strays_percent", take.tempo_strays_percent);
  json.member("tempo_jumps", take.tempo_jumps);
}

/// `each` is told every sheet of every player.
template <typename Each>
void for_each_sheet(const PracticeLogReport& report, const Each& each) {
  for (const PlayerProgress& player : report.players)
    for (const SheetProgress& sheet : player.sheets) each(sheet);
}

}  // namespace

std::string practice_log_json(const PracticeLogReport& report) {
  constexpr double percents = 100.0;
  JsonWriter json;
  json.member("format", "insideline-practice-log");
  json.member("version", 1);
  json.member("log", report.log);
  json.object("method", [&] {
    json.member("one_mistake_in", report.bound);
    json.member("confidence", 0.95);
    json.member("same_tempo_within_percent", percents * same_tempo_within);
  });
  json.list("players", report.players,
            [&](const PlayerProgress& player) { json.object([&] { write_player(json, player); }); });
  json.list("sheets", [&] {
    for_each_sheet(report, [&](const SheetProgress& sheet) { json.object([&] { write_sheet(json, sheet); }); });
  });
  json.list("takes", [&] {
    for_each_sheet(report, [&](const SheetProgress& sheet) {
      for (const LoggedTake& take : sheet.takes) json.object([&] { write_take(json, take, report.bound); });
    });
  });
  return std::move(json).finished();
}

}  // namespace insideline::reports
