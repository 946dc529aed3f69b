#include "analyzer/takes/take_alignment.hpp"

#include <algorithm>
#include <cstdlib>

namespace insideline {
namespace {

constexpr int octave = 12;

enum class Step : std::uint8_t { begin, meet, miss, add, go_back };

/// The table of the cheapest ways. Row t, column s: the first t notes of the take are played, and note s of the sheet
/// comes next.
class Table {
 public:
  Table(std::span<const int> sheet, std::span<const int> take, const AlignmentCosts& costs)
      : sheet_(sheet), take_(take), costs_(costs), steps_((sheet.size() + 1) * (take.size() + 1)) {
    row_.resize(sheet.size() + 1);
    origins_.resize(take.size() + 1);
    for (std::size_t s = 0; s <= sheet_.size(); ++s) {
      row_[s] = costs_.not_played * static_cast<double>(s);
      step(0, s) = Step::begin;
    }
    for (std::size_t t = 1; t <= take_.size(); ++t) fill_row(t);
  }

  [[nodiscard]] TakeAlignment cheapest() const {
    TakeAlignment found;
    const std::size_t end = cheapest_end();
    found.cost = end_cost(end);
    std::size_t t = take_.size();
    std::size_t s = end;
    found.played_to = end;
    while (step(t, s) != Step::begin) trace(found, t, s);
    found.first_played = s;
    turn_round(found);
    return found;
  }

 private:
  Step& step(std::size_t t, std::size_t s) { return steps_[t * (sheet_.size() + 1) + s]; }
  [[nodiscard]] Step step(std::size_t t, std::size_t s) const { return steps_[t * (sheet_.size() + 1) + s]; }

  [[nodiscard]] Struck struck(std::size_t t, std::size_t s) const {
    const int apart = std::abs(take_[t] - sheet_[s]);
    if (apart == 0) return Struck::right;
    return apart % octave == 0 ? Struck::octave_slip : Struck::wrong;
  }

  [[nodiscard]] double meeting_cost(std::size_t t, std::size_t s) const {
    switch (struck(t, s)) {
      case Struck::right: return 0.0;
      case Struck::octave_slip: return costs_.octave_slip;
      case Struck::wrong:
      case Struck::missing: return costs_.wrong;
    }
    return costs_.wrong;
  }

  void fill_row(std::size_t t) {
    std::vector<double> next(row_.size());
    next[0] = row_[0] + costs_.added;
    step(t, 0) = Step::add;
    for (std::size_t s = 1; s < next.size(); ++s) {
      next[s] = row_[s - 1] + meeting_cost(t - 1, s - 1);
      step(t, s) = Step::meet;
      take_if_cheaper(next[s], step(t, s), row_[s] + costs_.added, Step::add);
      take_if_cheaper(next[s], step(t, s), next[s - 1] + costs_.missing, Step::miss);
    }
    go_back(t, next);
    row_ = std::move(next);
  }

  static void take_if_cheaper(double& cost, Step& step, double other, Step way) {
    if (other >= cost) return;
    cost = other;
    step = way;
  }

  /// From the cheapest place of the row to any earlier one, where a note is played next.
  void go_back(std::size_t t, std::vector<double>& next) {
    const auto cheapest = std::ranges::min_element(next);
    const auto origin = static_cast<std::size_t>(cheapest - next.begin());
    origins_[t] = origin;
    const double cost = *cheapest + costs_.restart;
    for (std::size_t s = 0; s < origin; ++s) take_if_cheaper(next[s], step(t, s), cost, Step::go_back);
  }

  [[nodiscard]] double end_cost(std::size_t s) const {
    return row_[s] + costs_.not_played * static_cast<double>(sheet_.size() - s);
  }

  [[nodiscard]] std::size_t cheapest_end() const {
    std::size_t best = sheet_.size();
    for (std::size_t s = sheet_.size(); s-- > 0;)
      if (end_cost(s) < end_cost(best)) best = s;
    return best;
  }

  /// One step backwards; what it was is put at the end of `found`.
  void trace(TakeAlignment& found, std::size_t& t, std::size_t& s) const {
    switch (step(t, s)) {
      case Step::begin: return;
      case Step::meet:
        --t;
        --s;
        found.attempts.push_back({.sheet = s, .take = t, .struck = struck(t, s)});
        return;
      case Step::miss:
        found.attempts.push_back({.sheet = --s, .take = std::nullopt, .struck = Struck::missing});
        return;
      case Step::add: found.added.push_back(--t); return;
      case Step::go_back:
        found.restarts.push_back({.after = found.attempts.size(), .from = origins_[t], .back_to = s});
        s = origins_[t];
        return;
    }
  }

  static void turn_round(TakeAlignment& found) {
    std::ranges::reverse(found.attempts);
    std::ranges::reverse(found.added);
    std::ranges::reverse(found.restarts);
    for (Restart& restart : found.restarts) restart.after = found.attempts.size() - restart.after;
    std::size_t reached = found.played_to;
    for (const Restart& restart : found.restarts) reached = std::max(reached, restart.from);
    found.played_to = reached;
  }

  std::span<const int> sheet_;
  std::span<const int> take_;
  const AlignmentCosts& costs_;
  std::vector<double> row_;
  std::vector<Step> steps_;
  std::vector<std::size_t> origins_;  ///< by row: where a step back comes from
};

}  // namespace

TakeAlignment align_take(std::span<const int> sheet, std::span<const int> take, const AlignmentCosts& costs) {
  return Table(sheet, take, costs).cheapest();
}

}  // namespace insideline
