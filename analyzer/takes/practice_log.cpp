#include "analyzer/takes/practice_log.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <set>

namespace insideline {
namespace {

Share share_in(const std::vector<TakeGroup>& groups, const std::string& name) {
  const auto found = std::ranges::find(groups, name, &TakeGroup::name);
  return found == groups.end() ? Share{} : found->right;
}

/// The last of the takes before `day` that counts and was at the tempo of `like`.
const LoggedTake* counted_before(std::span<const LoggedTake> takes, const LoggedTake& like) {
  const auto found = std::find_if(takes.rbegin(), takes.rend(), [&](const LoggedTake& take) {
    return take.day < like.day && !is_broken(take) && is_same_tempo(take, like);
  });
  return found == takes.rend() ? nullptr : &*found;
}

bool is_ready(const LoggedTake& take, int bound) {
  return !is_broken(take) && fault_of(take) == TakeFault::none && note_readiness(take, bound) == Readiness::ready;
}

/// Whether nothing at that tempo came later on the same day.
bool ends_its_day(std::span<const LoggedTake> takes, std::size_t index) {
  return std::ranges::none_of(takes.subspan(index + 1), [&](const LoggedTake& later) {
    return later.day == takes[index].day && !is_broken(later) && is_same_tempo(later, takes[index]);
  });
}

bool ready_twice(std::span<const LoggedTake> takes, const LoggedTake& last, int bound) {
  const LoggedTake* before = counted_before(takes, last);
  return before != nullptr && is_ready(last, bound) && is_ready(*before, bound);
}

SheetProgress& sheet_of(PlayerProgress& player, const LoggedTake& take) {
  const auto found = std::ranges::find_if(player.sheets, [&](const SheetProgress& sheet) {
    const LoggedTake& other = sheet.takes.front();
    return other.sheet_id == take.sheet_id && (!take.sheet_id.empty() || other.sheet == take.sheet);
  });
  return found == player.sheets.end() ? player.sheets.emplace_back() : *found;
}

void sum_up(PlayerProgress& player, int bound) {
  std::set<std::string> days;
  for (SheetProgress& sheet : player.sheets) {
    sheet.next = next_tempo(sheet.takes, bound);
    sheet.ready_bpm = ready_tempo(sheet.takes, bound);
    player.takes += static_cast<int>(sheet.takes.size());
    for (const LoggedTake& take : sheet.takes) days.insert(take.day);
  }
  player.days = static_cast<int>(days.size());
  player.first_day = *days.begin();
  player.last_day = *days.rbegin();
}

}  // namespace

LoggedTake logged(const Assessment& assessment, const Solo& take) {
  LoggedTake row;
  row.right = assessment.all.right;
  row.up = share_in(assessment.by_direction, "up");
  row.down = share_in(assessment.by_direction, "down");
  row.restarts = assessment.restarts;
  row.whole = assessment.complete;
  row.added = assessment.added;
  if (assessment.tempo) {
    row.tempo_strays_percent = std::abs(assessment.tempo->furthest_percent);
    row.tempo_jumps = static_cast<int>(assessment.tempo->jumps.size());
  }
  row.tempo_bpm = take.tempo_bpm;
  if (!assessment.evenness) return row;
  row.tempo_bpm = assessment.evenness->tempo_bpm;
  row.spread_percent = assessment.evenness->spread_percent;
  return row;
}

bool is_broken(const LoggedTake& take) { return take.restarts > 0 || !take.whole.value_or(true); }

TakeFault fault_of(const LoggedTake& take, const TakeBounds& bounds) {
  if (take.added.value_or(0) * bounds.notes_an_added_one > take.right.of) return TakeFault::notes_added;
  if (take.tempo_jumps.value_or(0) > 0 || take.tempo_strays_percent.value_or(0.0) > bounds.tempo_band_percent)
    return TakeFault::unsteady;
  return take.spread_percent.value_or(0.0) > bounds.uneven_percent ? TakeFault::uneven : TakeFault::none;
}

Readiness note_readiness(const LoggedTake& take, int bound) {
  return readiness({.count = take.right.count, .of = take.right.of + take.added.value_or(0)}, bound);
}

bool is_same_tempo(const LoggedTake& a, const LoggedTake& b) {
  if (!a.tempo_bpm || !b.tempo_bpm) return false;
  return std::abs(*a.tempo_bpm - *b.tempo_bpm) <= same_tempo_within * std::min(*a.tempo_bpm, *b.tempo_bpm);
}

NextTempo next_tempo(std::span<const LoggedTake> takes, int bound) {
  assert(!takes.empty() && "there is a take to go by");
  const LoggedTake& last = takes.back();
  if (is_broken(last)) return NextTempo::whole_first;
  const TakeFault fault = fault_of(last);
  if (note_readiness(last, bound) == Readiness::not_ready || fault == TakeFault::notes_added) return NextTempo::slower;
  if (fault != TakeFault::none) return NextTempo::steadier;
  return ready_twice(takes, last, bound) ? NextTempo::faster : NextTempo::same;
}

std::optional<double> ready_tempo(std::span<const LoggedTake> takes, int bound) {
  std::optional<double> fastest;
  for (std::size_t i = 0; i < takes.size(); ++i)
    if (ready_twice(takes, takes[i], bound) && ends_its_day(takes, i))
      fastest = std::max(fastest.value_or(0.0), *takes[i].tempo_bpm);
  return fastest;
}

std::vector<PlayerProgress> progress_of(std::span<const LoggedTake> takes, int bound) {
  std::vector<PlayerProgress> players;
  for (const LoggedTake& take : takes) {
    auto player = std::ranges::find(players, take.player, &PlayerProgress::player);
    if (player == players.end()) {
      players.emplace_back().player = take.player;
      player = players.end() - 1;
    }
    sheet_of(*player, take).takes.push_back(take);
  }
  std::ranges::sort(players, {}, &PlayerProgress::player);
  for (PlayerProgress& player : players) sum_up(player, bound);
  return players;
}

const LoggedTake& last_take(const PlayerProgress& player) {
  assert(!player.sheets.empty() && "a player is in the log for a take");
  const LoggedTake* last = nullptr;
  for (const SheetProgress& sheet : player.sheets)
    if (last == nullptr || sheet.takes.back().day >= last->day) last = &sheet.takes.back();
  return *last;
}

}  // namespace insideline
