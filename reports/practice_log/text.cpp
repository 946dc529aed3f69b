#include "reports/drill_plan.hpp"
#include "reports/practice_log/log_report.hpp"
#include "reports/practice_log/words.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

namespace insideline::reports {
namespace {

constexpr std::size_t player_width = 20;

std::string player_row(const PlayerProgress& player, int bound) {
  const Share ready = sheets_ready(player);
  const LoggedTake& last = last_take(player);
  return fmt::format("  {} {:>5} {:>5}  {:<10}  {:<8} {}, {}\n",
                     padded_right(cut_to_width(shown_name(player.player), player_width), player_width), player.takes,
                     player.days, printable(player.last_day), fmt::format("{} of {}", ready.count, ready.of),
                     tempo_text(last.tempo_bpm), verdict_word(last, bound));
}

std::string class_text(const PracticeLogReport& report, Colour colour) {
  std::string text = painted(printable(fmt::format("{}: {}", report.log, whole_log(report))), Ink::title, colour) +
                     fmt::format("\n\n  {:<{}} {:>5} {:>5}  {:<10}  {:<8} {}\n", "Player", player_width, "Takes",
                                 "Days", "Last day", "Ready", "Last take");
  for (const PlayerProgress& player : report.players) text += player_row(player, report.bound);
  return text + "\n" +
         paragraph(
             "Ready: sheets that were ready on two different days at one tempo, of those that were played. A take "
             "that is broken off never counts. --player NAME shows one player take by take.");
}

std::string sheet_text(const SheetProgress& sheet, int bound, Colour colour) {
  std::string text = "\n" + painted(printable(sheet.takes.back().sheet), Ink::title, colour) + "\n";
  for (const LoggedTake& take : sheet.takes) text += take_line(take, bound);
  const std::string so_far = sheet.ready_bpm && sheet.next != NextTempo::faster
                                 ? fmt::format("Ready on two different days at {}. ", tempo_text(sheet.ready_bpm))
                                 : "";
  return text + paragraph(so_far + advice_in_words(sheet.takes, sheet.next));
}

}  // namespace

std::string practice_log_text(const PracticeLogReport& report, Colour colour) {
  if (report.players.size() > 1) return class_text(report, colour);
  const PlayerProgress& player = report.players.front();
  std::string text =
      painted(printable(fmt::format("{}: {}", shown_name(player.player), takes_and_days(player))), Ink::title, colour) +
      "\n";
  for (const SheetProgress& sheet : player.sheets) text += sheet_text(sheet, report.bound, colour);
  return text + "\n" + paragraph(caution_line());
}

}  // namespace insideline::reports
