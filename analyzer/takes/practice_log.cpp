#include "analyzer/takes/practice_log.hpp"

#include "analyzer/takes/readiness.hpp"

#include <algorithm>
#include <cassert>

namespace insideline {
namespace {

Share share_in(const std::vector<TakeGroup>& groups, const std::string& name) {
  const auto found = std::ranges::find(groups, name, &TakeGroup::name);
  return found == groups.end() ? Share{} : found->right;
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

NextTempo next_tempo(std::span<const LoggedTake> takes, int bound) {
  assert(!takes.empty() && "there is a take to go by");
  const LoggedTake& last = takes.back();
  if (readiness(last.right, bound) == Readiness::not_ready) return NextTempo::slower;
  const auto before =
      std::find_if(takes.rbegin(), takes.rend(), [&](const LoggedTake& take) { return take.day != last.day; });
  const bool twice = before != takes.rend() && readiness(before->right, bound) == Readiness::ready &&
                     readiness(last.right, bound) == Readiness::ready;
  return twice ? NextTempo::faster : NextTempo::same;
}

}  // namespace insideline
