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
bool fits_by_luck(const Share& right, int restarts, double cost, std::vector<int> sheet, std::span<const int> take) {
  constexpr double beyond_luck = 0.7;
  constexpr double clearly_cheaper = 0.8;
  constexpr int by_luck_at_a_jump = 2;  // a jump goes to where the next notes fit
  const Share sure{.count = right.count - by_luck_at_a_jump * restarts, .of = right.of};
  if (ratio(sure).value_or(0.0) >= beyond_luck) return false;
  std::ranges::reverse(sheet);
  return cost >= clearly_cheaper * align_take(sheet, take).cost;
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
/// sheet with the same intervals, and has one vote to share out.
std::map<int, double> votes_for_distances(std::span<const int> sheet, std::span<const int> take) {
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
  return votes;
}

/// The likeliest distances first, 0 left out.
std::vector<int> likely_distances(std::span<const int> sheet, std::span<const int> take) {
  std::map<int, double> votes = votes_for_distances(sheet, take);
  votes.erase(0);
  std::vector<int> distances;
  for (const auto& [distance, count] : votes) distances.push_back(distance);
  std::ranges::stable_sort(distances, {}, [&](int distance) { return std::abs(distance); });
  std::ranges::stable_sort(distances, std::ranges::greater{}, [&](int distance) { return votes[distance]; });
  if (distances.size() > most_tries) distances.resize(most_tries);
  return distances;
}

/// Whether so many runs of the take are those of the sheet at one distance that it may be the sheet, moved or not.
/// Takes of other pieces in the same idiom come to a tenth (common practice, no source).
bool has_much_of(std::span<const int> sheet, std::span<const int> take) {
  constexpr double too_much_for_luck = 0.25;
  const auto votes = votes_for_distances(sheet, take);
  return std::ranges::any_of(votes, [&](const auto& distance) {
    return distance.second >= too_much_for_luck * static_cast<double>(take.size());
  });
}

}  // namespace

std::optional<AnotherSheet> is_clearly_another_sheet(const Solo& sheet, const Solo& take) {
  constexpr std::size_t laid_in_no_time = 2'000UL * 2'000UL;  // pairs of notes
  constexpr std::size_t stretches = 5;
  constexpr std::size_t stretch_length = 100;
  const LaidTake laid = laid_take(sheet, take);
  const std::vector<int> wanted = pitches_of(sheet, laid.sheet_notes);
  const std::vector<int> played = pitches_of(take, laid.take_notes);
  if (wanted.size() * played.size() < laid_in_no_time || played.size() < stretches * stretch_length)
    return std::nullopt;
  AnotherSheet found;
  found.from_stretches = true;
  for (std::size_t i = 0; i < stretches; ++i) {
    const std::size_t first = (played.size() - stretch_length) * i / (stretches - 1);
    const auto stretch = std::span(played).subspan(first, stretch_length);
    const TakeAlignment alignment = align_take(wanted, stretch);
    const auto right = static_cast<int>(std::ranges::count(alignment.attempts, Struck::right, &Attempt::struck));
    const Share share{.count = right, .of = static_cast<int>(stretch.size())};
    if (!fits_by_luck(share, static_cast<int>(alignment.restarts.size() + alignment.skips.size()), alignment.cost,
                      wanted, stretch))
      return std::nullopt;
    found.right = {.count = found.right.count + share.count, .of = found.right.of + share.of};
  }
  if (has_much_of(wanted, played)) return std::nullopt;
  return found;
}

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
  const bool fits = found.right.count >= enough_fits * possible &&
                    !fits_by_luck(assessment.all.right, assessment.restarts, assessment.alignment.cost, wanted, played);
  if (fits && !found.semitones) return std::nullopt;
  return found;
}

}  // namespace insideline
