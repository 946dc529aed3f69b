#include "reports/practice_log/words.hpp"

#include "reports/text/display_width.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::reports {
namespace {

std::string from_to(const std::string& first_day, const std::string& last_day) {
  return first_day == last_day ? "on " + first_day : fmt::format("from {} to {}", first_day, last_day);
}

}  // namespace

std::string_view verdict_word(const LoggedTake& take, int bound) {
  if (is_broken(take)) return "broken off";
  const Readiness notes = note_readiness(take, bound);
  if (notes == Readiness::not_ready) return "not ready";
  switch (fault_of(take)) {
    case TakeFault::notes_added: return "not ready";
    case TakeFault::unsteady: return "unsteady";
    case TakeFault::uneven: return "uneven";
    case TakeFault::none: break;
  }
  return notes == Readiness::ready ? "ready" : "not settled";
}

std::string tempo_text(const std::optional<double>& tempo_bpm) {
  return tempo_bpm ? fmt::format("{:.0f} bpm", *tempo_bpm) : "no tempo";
}

std::string take_line(const LoggedTake& take, int bound) {
  constexpr std::size_t width = 10;
  const std::string bar = padded_right(gauge(take.right.count, take.right.of, "█", width), width);
  std::vector<std::string> ways;
  if (take.up.of > 0) ways.push_back(fmt::format("up {}/{}", take.up.count, take.up.of));
  if (take.down.of > 0) ways.push_back(fmt::format("down {}/{}", take.down.count, take.down.of));
  std::string line =
      fmt::format("  {} {:>8}  {} {:>4} of {:<4} {:<11}", printable(take.day), tempo_text(take.tempo_bpm), bar,
                  take.right.count, take.right.of, verdict_word(take, bound));
  for (const std::string& way : ways) line += (&way == &ways.front() ? "  " : ", ") + way;
  line.erase(line.find_last_not_of(' ') + 1);
  return line + "\n";
}

std::string advice_in_words(std::span<const LoggedTake> takes, NextTempo next) {
  switch (next) {
    case NextTempo::whole_first:
      return "The log says: the whole sheet first, without a stop; a take that is broken off does not count.";
    case NextTempo::slower: return "The log says: a step slower.";
    case NextTempo::steadier:
      return fault_of(takes.back()) == TakeFault::uneven
                 ? "The log says: this tempo again with a click on every eighth; the notes came unevenly."
                 : "The log says: this tempo again with a click; it did not hold.";
    case NextTempo::same:
      if (!takes.back().tempo_bpm)
        return "The log says: nobody knows the tempo of the last take, so it does not count; record it as MIDI.";
      return "The log says: stay at this tempo until it is ready on two different days.";
    case NextTempo::faster: return "The log says: ready at this tempo on two different days, so a step faster.";
  }
  return {};
}

std::string shown_name(const std::string& player) { return player.empty() ? "(no name)" : printable(player); }

std::string takes_and_days(const PlayerProgress& player) {
  const std::string takes = counted(player.takes, "take");
  if (player.days == 1) return takes + " on " + player.first_day;
  return fmt::format("{} on {}, {}", takes, counted(player.days, "day"), from_to(player.first_day, player.last_day));
}

Share sheets_ready(const PlayerProgress& player) {
  const auto ready =
      std::ranges::count_if(player.sheets, [](const SheetProgress& sheet) { return sheet.ready_bpm.has_value(); });
  return {.count = static_cast<int>(ready), .of = static_cast<int>(player.sheets.size())};
}

std::string whole_log(const PracticeLogReport& report) {
  int takes = 0;
  std::string first = report.players.front().first_day;
  std::string last = report.players.front().last_day;
  for (const PlayerProgress& player : report.players) {
    takes += player.takes;
    first = std::min(first, player.first_day);
    last = std::max(last, player.last_day);
  }
  return fmt::format("{}, {}, {}", counted(static_cast<int>(report.players.size()), "player"), counted(takes, "take"),
                     from_to(first, last));
}

}  // namespace insideline::reports
