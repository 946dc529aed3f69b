#include "reports/html/page.hpp"
#include "reports/drill_plan.hpp"
#include "reports/html/plots.hpp"
#include "reports/practice_log/log_report.hpp"
#include "reports/practice_log/words.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::reports {
namespace {

std::string tempo_number(const std::optional<double>& tempo_bpm) {
  return tempo_bpm ? fmt::format("{:.0f}", *tempo_bpm) : "";
}

Axis along_the_takes(const SheetProgress& sheet) {
  return axis_from_zero("take", static_cast<double>(sheet.takes.size()));
}

Markup right_plot(const SheetProgress& sheet) {
  PlottedLine all{.name = "all notes", .points = {}};
  PlottedLine down{.name = "descending arpeggios", .points = {}};
  for (std::size_t i = 0; i < sheet.takes.size(); ++i) {
    const auto x = static_cast<double>(i + 1);
    all.points.push_back({x, ratio(sheet.takes[i].right).value_or(0.0)});
    if (const auto share = ratio(sheet.takes[i].down)) down.points.push_back({x, *share});
  }
  std::vector<PlottedLine> lines{all};
  if (!down.points.empty()) lines.push_back(down);
  const Axis up{.name = "right", .low = 0.0, .high = 1.0, .step = 0.25, .numbers = Numbers::percent};
  return line_plot({.heading = "Right notes", .says = "The share of right notes, take after take.", .things = "take"},
                   along_the_takes(sheet), up, lines);
}

Markup tempo_plot(const SheetProgress& sheet, int bound) {
  PlottedLine all{.name = "every take", .points = {}};
  PlottedLine ready{.name = "takes that were ready", .points = {}};
  double fastest = 0.0;
  for (std::size_t i = 0; i < sheet.takes.size(); ++i) {
    const LoggedTake& take = sheet.takes[i];
    if (!take.tempo_bpm) continue;
    const Point point{static_cast<double>(i + 1), *take.tempo_bpm};
    fastest = std::max(fastest, point.y);
    all.points.push_back(point);
    if (verdict_word(take, bound) == "ready") ready.points.push_back(point);
  }
  if (all.points.empty()) return {};
  std::vector<PlottedLine> lines{all};
  if (!ready.points.empty()) lines.push_back(ready);
  return line_plot({.heading = "Tempo", .says = "Quarter notes a minute, take after take.", .things = "take"},
                   along_the_takes(sheet), axis_from_zero("quarter notes a minute", fastest), lines);
}

Markup takes_table(const SheetProgress& sheet, int bound) {
  const LoggedTake& last = sheet.takes.back();
  Table takes{.caption = fmt::format("The takes of {} by {}", last.sheet, shown_name(last.player)),
              .head = {"day", "verdict", "take", "tempo", "right", "of", "up", "down", "restarts"},
              .rows = {},
              .numbers_from = 3};
  const auto way = [](const Share& share) {
    return share.of == 0 ? std::string() : fmt::format("{} of {}", share.count, share.of);
  };
  for (const LoggedTake& take : sheet.takes)
    takes.rows.push_back({take.day, std::string(verdict_word(take, bound)), take.take, tempo_number(take.tempo_bpm),
                          std::to_string(take.right.count), std::to_string(take.right.of), way(take.up), way(take.down),
                          std::to_string(take.restarts)});
  return table(takes);
}

Markup player_part(const PlayerProgress& player, int bound) {
  Markup part = element("p", takes_and_days(player) + ".");
  for (const SheetProgress& sheet : player.sheets) {
    part += element("h3", sheet.takes.back().sheet);
    if (sheet.ready_bpm)
      part += element("p", fmt::format("Ready on two different days at {}.", tempo_text(sheet.ready_bpm)));
    part += element("p", advice_in_words(sheet.takes, sheet.next));
    if (sheet.takes.size() > 1)
      part += element("div", {{"class", "plots"}}, right_plot(sheet) + tempo_plot(sheet, bound));
    part += takes_table(sheet, bound);
  }
  return part;
}

Markup players_table(const PracticeLogReport& report) {
  Table players{.caption = "A line for each player",
                .head = {"player", "last day", "verdict", "tempo", "takes", "days", "sheets ready", "sheets"},
                .rows = {},
                .numbers_from = 3};
  for (const PlayerProgress& player : report.players) {
    const Share ready = sheets_ready(player);
    const LoggedTake& last = last_take(player);
    players.rows.push_back({shown_name(player.player), player.last_day, std::string(verdict_word(last, report.bound)),
                            tempo_number(last.tempo_bpm), std::to_string(player.takes), std::to_string(player.days),
                            std::to_string(ready.count), std::to_string(ready.of)});
  }
  return table(players);
}

Markup days_plot(const PracticeLogReport& report) {
  std::vector<NamedValue> values;
  for (const PlayerProgress& player : report.players)
    values.push_back({shown_name(player.player), static_cast<double>(player.days), takes_and_days(player)});
  return horizontal_bars(
      {.heading = "Days with a take", .says = "On how many days each player recorded.", .things = "player"}, "days",
      values);
}

}  // namespace

std::string practice_log_page(const PracticeLogReport& report) {
  Page page;
  const bool is_class = report.players.size() > 1;
  page.title = is_class ? "Practice log " + report.log : "Practice log of " + shown_name(report.players.front().player);
  if (is_class) {
    page.under_title = element("p", whole_log(report) + ".");
    page.main += section("players", "Player by player",
                         players_table(report) +
                             element("p",
                                     "Verdict and tempo are those of the last take. A sheet is ready that was ready on "
                                     "two different days at one tempo; a take that is broken off never counts.") +
                             element("div", {{"class", "plots"}}, days_plot(report)));
  }
  for (std::size_t i = 0; i < report.players.size(); ++i)
    page.main += section(fmt::format("player-{}", i + 1), shown_name(report.players[i].player),
                         player_part(report.players[i], report.bound));
  page.main += element("p", caution_line());
  return whole_page(page);
}

}  // namespace insideline::reports
