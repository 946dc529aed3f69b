#include "reports/csv_report.hpp"
#include "reports/decimal.hpp"
#include "reports/practice_log/log_report.hpp"
#include "reports/practice_log/words.hpp"

namespace insideline::reports {
namespace {

std::string number_or_nothing(const std::optional<double>& number) {
  std::string text;
  if (number) append_decimal(text, *number);
  return text;
}

std::string count_or_nothing(const std::optional<int>& number) { return number ? std::to_string(*number) : ""; }

std::string take_row(const PlayerProgress& player, const LoggedTake& take, int bound) {
  const auto count = [](int number) { return std::to_string(number); };
  return csv_row({not_a_formula(player.player),
                  not_a_formula(take.day),
                  not_a_formula(take.sheet),
                  take.sheet_id,
                  not_a_formula(take.take),
                  number_or_nothing(take.tempo_bpm),
                  std::string(verdict_word(take, bound)),
                  is_broken(take) ? "no" : "yes",
                  count(take.right.count),
                  count(take.right.of),
                  count(take.up.count),
                  count(take.up.of),
                  count(take.down.count),
                  count(take.down.of),
                  count(take.restarts),
                  take.whole ? (*take.whole ? "yes" : "no") : "",
                  number_or_nothing(take.spread_percent),
                  count_or_nothing(take.added),
                  number_or_nothing(take.tempo_strays_percent),
                  count_or_nothing(take.tempo_jumps)});
}

}  // namespace

std::string practice_log_csv(const PracticeLogReport& report) {
  std::string text = csv_row({"player",
                              "day",
                              "sheet",
                              "sheet_id",
                              "take",
                              "tempo_bpm",
                              "verdict",
                              "counts",
                              "right_notes",
                              "all_notes",
                              "right_up",
                              "all_up",
                              "right_down",
                              "all_down",
                              "restarts",
                              "whole",
                              "spread_percent",
                              "added",
                              "tempo_strays_percent",
                              "tempo_jumps"});
  for (const PlayerProgress& player : report.players)
    for (const SheetProgress& sheet : player.sheets)
      for (const LoggedTake& take : sheet.takes) text += take_row(player, take, report.bound);
  return text;
}

}  // namespace insideline::reports
