#include "analyzer/best_runs.hpp"

#include <algorithm>
#include <numeric>
#include <random>
#include <tuple>
#include <vector>

#include <catch2/catch.hpp>

using insideline::best_runs;
using insideline::Run;

namespace {

// Members, at home, squares, complete, colours (below zero).
using Worth = std::tuple<std::size_t, std::size_t, std::size_t, std::size_t, std::ptrdiff_t>;

Worth worth_of(const std::vector<Run>& runs) {
  Worth worth{};
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const std::size_t length = runs[i].members.size();
    const std::size_t shared = i > 0 && runs[i - 1].members.back() == runs[i].members.front() ? 1 : 0;
    std::get<0>(worth) += length - shared;
    std::get<1>(worth) += length - runs[i].borrowed;
    std::get<2>(worth) += length * length;
    std::get<3>(worth) += runs[i].complete ? 1 : 0;
    std::get<4>(worth) -= static_cast<std::ptrdiff_t>(runs[i].colours);
  }
  return worth;
}

bool overlap(const Run& a, const Run& b) {
  if (b.may_share_first && a.members.back() == b.members.front()) return false;
  if (a.may_share_first && b.members.back() == a.members.front()) return false;
  return a.members.front() <= b.members.back() && b.members.front() <= a.members.back();
}

bool overlaps_itself(const std::vector<Run>& runs) {
  for (std::size_t i = 0; i < runs.size(); ++i)
    for (std::size_t j = i + 1; j < runs.size(); ++j)
      if (overlap(runs[i], runs[j])) return true;
  return false;
}

/// Tries every set.
Worth best_of_all_sets(const std::vector<Run>& candidates) {
  Worth best{};
  for (unsigned set = 0; set < 1U << candidates.size(); ++set) {
    std::vector<Run> chosen;
    for (std::size_t i = 0; i < candidates.size(); ++i)
      if ((set >> i & 1U) != 0) chosen.push_back(candidates[i]);
    std::ranges::sort(chosen, {}, [](const Run& run) { return run.members.front(); });
    if (!overlaps_itself(chosen)) best = std::max(best, worth_of(chosen));
  }
  return best;
}

Run run_from(std::size_t first, std::size_t length, bool complete) {
  Run run;
  run.members.resize(length);
  std::iota(run.members.begin(), run.members.end(), first);
  run.complete = complete;
  return run;
}

}  // namespace

TEST_CASE("the chosen runs are as good as the best of all possible choices") {
  std::mt19937 random(7);
  for (int trial = 0; trial < 200; ++trial) {
    std::vector<Run> candidates;
    std::vector<bool> turns(24);  // where a note may belong to two runs
    for (std::size_t i = 0; i < turns.size(); ++i) turns[i] = random() % 3 == 0;
    for (unsigned i = 0; i < 9; ++i) {
      candidates.push_back(run_from(random() % 16, 3 + random() % 5, random() % 2 == 0));
      candidates.back().borrowed = random() % 3;
      candidates.back().colours = random() % 3;
      candidates.back().may_share_first = turns[candidates.back().members.front()];
    }
    const std::vector<Run> chosen = best_runs(candidates);
    CHECK_FALSE(overlaps_itself(chosen));
    CHECK(worth_of(chosen) == best_of_all_sets(candidates));
    CHECK(std::ranges::is_sorted(chosen, {}, [](const Run& run) { return run.members.front(); }));
  }
}

TEST_CASE("most notes win, then the longer run, then the complete one, then the one without extensions") {
  const Run three = run_from(0, 3, false);
  const Run next_three = run_from(3, 3, true);
  const Run all_six = run_from(0, 6, false);
  const Run middle_four = run_from(1, 4, true);
  CHECK(best_runs({middle_four, three, next_three}).size() == 2);
  CHECK(best_runs({three, next_three, all_six}).front().members == all_six.members);
  CHECK(best_runs({run_from(0, 4, false), run_from(1, 4, true)}).front().complete);
  CHECK(best_runs({}).empty());
  Run elsewhere = run_from(0, 4, false);
  elsewhere.borrowed = 4;
  CHECK(best_runs({elsewhere, run_from(0, 4, false)}).front().borrowed == 0);
  Run coloured = run_from(0, 3, false);
  coloured.colours = 1;
  CHECK(best_runs({coloured, run_from(1, 3, false)}).front().colours == 0);
}
