#include "analyzer/takes/practice_log.hpp"

#include <algorithm>
#include <cassert>

namespace insideline {
namespace {

Share share_in(const std::vector<TakeGroup>& groups, const std::string& name) {
  const auto found = std::ranges::find(groups, name, &TakeGroup::name);
  return found == groups.end() ? Share{} : found->right;
}

bool is_ready(const LoggedTake& take, const Ladder& ladder) {
  const Rung rung = rung_of(take.right, ladder);
  return rung == Rung::ready || rung == Rung::secure;
}

}  // namespace

LoggedTake logged(const Assessment& assessment, const std::string& day, const std::string& sheet,
                  const std::string& take) {
  LoggedTake row;
  row.day = day;
  row.sheet = sheet;
  row.take = take;
  row.right = assessment.all.right;
  row.up = share_in(assessment.by_direction, "up");
  row.down = share_in(assessment.by_direction, "down");
  row.restarts = assessment.restarts;
  if (!assessment.evenness) return row;
  row.tempo_bpm = assessment.evenness->tempo_bpm;
  row.spread_percent = assessment.evenness->spread_percent;
  return row;
}

NextTempo next_tempo(std::span<const LoggedTake> takes, const Ladder& ladder) {
  assert(!takes.empty() && "there is a take to go by");
  const LoggedTake& last = takes.back();
  if (rung_of(last.right, ladder) == Rung::not_yet) return NextTempo::slower;
  const auto before =
      std::find_if(takes.rbegin(), takes.rend(), [&](const LoggedTake& take) { return take.day != last.day; });
  const bool twice = before != takes.rend() && is_ready(*before, ladder) && is_ready(last, ladder);
  return twice ? NextTempo::faster : NextTempo::same;
}

}  // namespace insideline
