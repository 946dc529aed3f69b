#include "analyzer/takes/another_sheet.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <map>
#include <span>
#include <vector>

namespace insideline {
namespace {

constexpr double enough_fits = 0.5;
constexpr double clearly_more = 0.25;  // of the notes that could be right
constexpr std::size_t most_tries = 3;  // distances that are tried in full

/// The notes of the sheet that one pass of the take gets right.
Share right_of(const TakeAlignment& alignment, std::size_t notes) {
  std::vector<bool> right(notes);
  for (const Attempt& attempt : alignment.attempts)
    if (attempt.struck == Struck::right) right[attempt.sheet] = true;
  return {.count = static_cast<int>(std::ranges::count(right, true)), .of = static_cast<int>(notes)};
}

/// Lines in one key share half of their notes by luck. What luck gives is shown by the sheet read backwards: the same
/// notes in an order nobody played. Both bounds are set by trying every demo piece against every other (common
/// practice, no source).
bool fits_by_luck(const Assessment& assessment, std::vector<int> sheet, std::span<const int> take) {
  constexpr double beyond_luck = 0.7;
  constexpr double clearly_cheaper = 0.8;
  constexpr int by_luck_at_a_jump = 2;  // a jump goes to where the next notes fit
  const Share right = assessment.all.right;
  const Share sure{.count = right.count - by_luck_at_a_jump * assessment.restarts, .of = right.of};
  if (ratio(sure).value_or(0.0) >= beyond_luck) return false;
  std::ranges::reverse(sheet);
  return assessment.alignment.cost >= clearly_cheaper * align_take(sheet, take).cost;
}

/// Three intervals in a row sound alike in every key.
constexpr std::size_t run_length = 4;
using Intervals = std::array<int, run_length - 1>;

Intervals intervals_at(std::span<const int> pitches, std::size_t first) {
  Intervals found{};
  for (std::size_t i = 0; i < found.size(); ++i) found.at(i) = pitches[first + i + 1] - pitches[first + i];
  return found;
}

/// How far the take lies above the sheet: every run of four notes in the take votes for the distance to each run of the
/// sheet with the same intervals. The likeliest distances first, 0 left out.
std::vector<int> likely_distances(std::span<const int> sheet, std::span<const int> take) {
  std::map<Intervals, std::vector<int>> runs;
  for (std::size_t i = 0; i + run_length <= sheet.size(); ++i) runs[intervals_at(sheet, i)].push_back(sheet[i]);
  for (auto& [intervals, pitches] : runs) {
    std::ranges::sort(pitches);
    pitches.erase(std::unique(pitches.begin(), pitches.end()), pitches.end());
  }
  std::map<int, double> votes;
  for (std::size_t i = 0; i + run_length <= take.size(); ++i) {
    const auto found = runs.find(intervals_at(take, i));
    if (found == runs.end()) continue;
    for (const int pitch : found->second) votes[take[i] - pitch] += 1.0 / static_cast<double>(found->second.size());
  }
  votes.erase(0);
  std::vector<int> distances;
  for (const auto& [distance, count] : votes) distances.push_back(distance);
  std::ranges::stable_sort(distances, {}, [&](int distance) { return std::abs(distance); });
  std::ranges::stable_sort(distances, std::ranges::greater{}, [&](int distance) { return votes[distance]; });
  if (distances.size() > most_tries) distances.resize(most_tries);
  return distances;
}

}  // namespace

std::optional<AnotherSheet> looks_like_another_sheet(const Solo& sheet, const Solo& take,
                                                     const Assessment& assessment) {
  const LaidTake laid = laid_take(sheet, take);
  const std::vector<int> wanted = pitches_of(sheet, laid.sheet_notes);
  const std::vector<int> played = pitches_of(take, laid.take_notes);
  AnotherSheet found;
  found.right = right_of(assessment.alignment, wanted.size());
  const double possible = std::max(1.0, static_cast<double>(std::min(played.size(), wanted.size())));
  std::vector<int> moved(played.size());
  double most = std::max(enough_fits * possible, found.right.count + clearly_more * possible);
  for (const int distance : likely_distances(wanted, played)) {
    if (most > possible) break;  // none could be clearly better
    std::ranges::transform(played, moved.begin(), [&](int pitch) { return pitch - distance; });
    const Share right = right_of(align_take(wanted, moved), wanted.size());
    if (right.count < most) continue;
    most = right.count + 1.0;
    found.right_if_moved = right;
    found.semitones = distance;
    found.as_written = distance == -sheet.sounding_minus_written.semitones;
  }
  const bool fits = found.right.count >= enough_fits * possible && !fits_by_luck(assessment, wanted, played);
  if (fits && !found.semitones) return std::nullopt;
  return found;
}

}  // namespace insideline
