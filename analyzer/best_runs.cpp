#include "analyzer/best_runs.hpp"

#include <algorithm>
#include <compare>
#include <cstddef>
#include <span>
#include <utility>

namespace insideline {
namespace {

/// What makes one set of runs better than another, the most important first.
struct Worth {
  std::size_t members = 0;
  std::size_t of_the_chord_below = 0;
  std::size_t squared_lengths = 0;
  std::ptrdiff_t ornaments = 0;  ///< below zero: the fewer the better
  std::size_t complete = 0;
  std::ptrdiff_t colours = 0;  ///< below zero
  friend auto operator<=>(const Worth&, const Worth&) = default;
};

Worth sum(const Worth& a, const Run& run, std::size_t shared) {
  const std::size_t length = run.members.size();
  return {a.members + length - shared,           a.of_the_chord_below + length - run.borrowed,
          a.squared_lengths + length * length,   a.ornaments - std::ssize(run.ornaments),
          a.complete + (run.complete ? 1U : 0U), a.colours - static_cast<std::ptrdiff_t>(run.colours)};
}

}  // namespace

std::vector<Run> best_runs(std::vector<Run> candidates) {
  std::ranges::stable_sort(candidates, {}, last_of);
  std::vector<Worth> best(candidates.size() + 1);      // of the first n candidates
  std::vector<std::size_t> before(candidates.size());  // how many stand when this one is put after them
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const Run& run = candidates[i];
    const auto sorted = std::span(candidates).first(i);
    const auto count = [&](auto end) { return static_cast<std::size_t>(end - sorted.begin()); };
    before[i] = count(std::ranges::lower_bound(sorted, first_of(run), {}, last_of));
    Worth here = sum(best[before[i]], run, 0);
    if (run.may_share_first) {
      const std::size_t touching = count(std::ranges::upper_bound(sorted, first_of(run), {}, last_of));
      const Worth shared = sum(best[touching], run, 1);
      if (shared > here) {
        here = shared;
        before[i] = touching;
      }
    }
    best[i + 1] = std::max(best[i], here);
  }
  std::vector<Run> chosen;
  for (std::size_t i = candidates.size(); i > 0;) {
    if (best[i] == best[i - 1]) {
      --i;
    } else {
      chosen.push_back(std::move(candidates[i - 1]));
      i = before[i - 1];
    }
  }
  std::ranges::reverse(chosen);
  return chosen;
}

}  // namespace insideline
