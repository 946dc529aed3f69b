#include "analyzer/takes/take_alignment.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>

namespace insideline {
namespace {

constexpr int octave = 12;

enum class Step : std::uint8_t { begin, meet, miss, add };

using Cost = std::int64_t;  ///< in thousandths, so that equal costs are equal
constexpr double cost_units = 1000.0;

Cost in_units(double cost) { return std::llround(cost * cost_units); }

struct ExactCosts {
  explicit ExactCosts(const AlignmentCosts& costs)
      : octave_slip(in_units(costs.octave_slip)),
        wrong(in_units(costs.wrong)),
        missing(in_units(costs.missing)),
        added(in_units(costs.added)),
        restart(in_units(costs.restart)),
        not_played(in_units(costs.not_played)),
        most_outside(in_units(costs.most_outside)),
        skip(in_units(costs.skip)) {}

  Cost octave_slip;
  Cost wrong;
  Cost missing;
  Cost added;
  Cost restart;
  Cost not_played;
  Cost most_outside;
  Cost skip;
};

/// The way to a place: so many notes of the take are played (the row), and this note of the sheet comes next.
struct Place {
  std::size_t sheet = 0;
  Cost cost = 0;
  Step step = Step::begin;
};

/// What every place of a row costs at most, because a jump leads there from the cheapest one.
struct Jumps {
  Cost least = 0;
  std::size_t origin = 0;  ///< the last of the cheapest places
  Cost ahead = 0;          ///< what a jump ahead adds

  [[nodiscard]] Cost cost_to(std::size_t sheet, const ExactCosts& costs) const {
    if (sheet == origin) return least;
    return least + (sheet < origin ? costs.restart : ahead);
  }
};

Jumps jumps_of(std::span<const Place> row, Cost ahead) {
  Jumps jumps{.least = row.front().cost, .origin = row.front().sheet, .ahead = ahead};
  for (const Place& place : row)
    if (place.cost < jumps.least || (place.cost == jumps.least && place.sheet > jumps.origin))
      jumps = {.least = place.cost, .origin = place.sheet, .ahead = ahead};
  return jumps;
}

/// The cheapest ways, row by row. A row holds only the places that are cheaper than a jump to them.
class Ways {
 public:
  Ways(std::span<const int> sheet, std::span<const int> take, const AlignmentCosts& costs)
      : sheet_(sheet), take_(take), costs_(costs) {
    for (std::size_t s = 0; s < sheet.size(); ++s) by_name_[name_of(sheet[s])].push_back(s);
    std::vector<Place> first;
    for (std::size_t s = 0; s <= sheet.size() && (s == 0 || unplayed(s) < costs_.most_outside); ++s)
      first.push_back({.sheet = s, .cost = unplayed(s), .step = Step::begin});
    keep(std::move(first), costs_.most_outside);
    for (std::size_t t = 0; t < take.size(); ++t) play(t);
  }

  [[nodiscard]] TakeAlignment cheapest() const {
    TakeAlignment found;
    const Place end = cheapest_end();
    found.cost = static_cast<double>(end.cost + unplayed(sheet_.size() - end.sheet)) / cost_units;
    found.places = kept_.size();
    found.played_to = end.sheet;
    trace(found, end.sheet);
    turn_round(found);
    return found;
  }

 private:
  static std::size_t name_of(int pitch) { return static_cast<std::size_t>((pitch % octave + octave) % octave); }

  [[nodiscard]] Struck struck(std::size_t t, std::size_t s) const {
    const int apart = std::abs(take_[t] - sheet_[s]);
    if (apart == 0) return Struck::right;
    return apart % octave == 0 ? Struck::octave_slip : Struck::wrong;
  }

  [[nodiscard]] Cost meeting_cost(std::size_t t, std::size_t s) const {
    switch (struck(t, s)) {
      case Struck::right: return 0;
      case Struck::octave_slip: return costs_.octave_slip;
      case Struck::wrong:
      case Struck::missing: return costs_.wrong;
    }
    return costs_.wrong;
  }

  [[nodiscard]] Cost unplayed(std::size_t notes) const {
    return std::min(costs_.not_played * static_cast<Cost>(notes), costs_.most_outside);
  }

  /// The row after note `t` of the take.
  void play(std::size_t t) {
    std::vector<Place> next;
    for (const Place& place : row_) {
      next.push_back({place.sheet, place.cost + costs_.added, Step::add});
      if (place.sheet < sheet_.size())
        next.push_back({place.sheet + 1, place.cost + meeting_cost(t, place.sheet), Step::meet});
    }
    const Jumps before = jumps_.back();
    const Jumps after = jumps_of(next, costs_.skip);
    std::erase_if(next, [&](const Place& place) { return !is_worth_keeping(place, after); });
    add_arrivals(t, before, after, next);
    std::ranges::sort(next, [](const Place& a, const Place& b) {
      if (a.sheet != b.sheet) return a.sheet < b.sheet;
      return a.cost != b.cost ? a.cost < b.cost : a.step < b.step;
    });
    keep(with_misses(next, after), costs_.skip);
  }

  [[nodiscard]] bool is_worth_keeping(const Place& place, const Jumps& jumps) const {
    return place.sheet == jumps.origin ? place.cost == jumps.least : place.cost < jumps.cost_to(place.sheet, costs_);
  }

  /// Places after a jump and the note played there, as far as a jump that is made later is not as cheap.
  void add_arrivals(std::size_t t, const Jumps& before, const Jumps& after, std::vector<Place>& next) const {
    const auto arrive = [&](std::size_t s) {
      if (s == before.origin) return;
      const Cost cost = before.cost_to(s, costs_) + meeting_cost(t, s);
      if (cost < after.cost_to(s + 1, costs_)) next.push_back({s + 1, cost, Step::meet});
    };
    if (after.least > before.least) std::ranges::for_each(by_name_.at(name_of(take_[t])), arrive);
    // Where the cheapest place has gone back, what lies between was behind the player and is now ahead.
    for (std::size_t s = after.origin; s < before.origin; ++s) arrive(s);
    // A take may begin anywhere, for less than a jump ahead costs later.
    for (std::size_t s = before.origin; before.ahead < after.ahead && s < sheet_.size(); ++s) arrive(s);
  }

  [[nodiscard]] std::vector<Place> with_misses(std::span<const Place> sorted, const Jumps& jumps) const {
    std::vector<Place> row;
    const auto miss_up_to = [&](std::size_t end) {
      while (!row.empty() && row.back().sheet + 1 < end) {
        const Place missed{row.back().sheet + 1, row.back().cost + costs_.missing, Step::miss};
        if (!is_worth_keeping(missed, jumps)) return;
        row.push_back(missed);
      }
    };
    for (const Place& place : sorted) {
      miss_up_to(place.sheet);
      if (!row.empty() && row.back().sheet == place.sheet) continue;  // a cheaper way to it came first
      const bool next_to_last = !row.empty() && row.back().sheet + 1 == place.sheet;
      const Place missed{place.sheet, next_to_last ? row.back().cost + costs_.missing : place.cost, Step::miss};
      const Place& better = missed.cost < place.cost ? missed : place;
      if (is_worth_keeping(better, jumps)) row.push_back(better);
    }
    miss_up_to(sheet_.size() + 1);
    return row;
  }

  /// `ahead` is what a jump ahead from there adds.
  void keep(std::vector<Place> row, Cost ahead) {
    row_ = std::move(row);
    begins_.push_back(kept_.size());
    for (const Place& place : row_) kept_.push_back(packed(place.sheet, place.step));
    jumps_.push_back(jumps_of(row_, ahead));
  }

  /// Four bytes a place, in the order of the sheet.
  static std::uint32_t packed(std::size_t sheet, Step step) {
    return static_cast<std::uint32_t>(sheet) * 4U + static_cast<std::uint32_t>(step);
  }

  /// How the place was reached; none where only a jump leads to it.
  [[nodiscard]] std::optional<Step> step_to(std::size_t t, std::size_t s) const {
    const auto begin = kept_.begin() + static_cast<std::ptrdiff_t>(begins_[t]);
    const auto end = t + 1 < begins_.size() ? kept_.begin() + static_cast<std::ptrdiff_t>(begins_[t + 1]) : kept_.end();
    const auto found = std::lower_bound(begin, end, packed(s, Step::begin));
    if (found == end || *found / 4U != s) return std::nullopt;
    return static_cast<Step>(*found % 4U);
  }

  [[nodiscard]] Place cheapest_end() const {
    const auto whole = [&](const Place& place) { return place.cost + unplayed(sheet_.size() - place.sheet); };
    Place best = row_.back();
    for (std::size_t i = row_.size(); i-- > 0;)
      if (whole(row_[i]) < whole(best)) best = row_[i];
    return best;
  }

  /// Backwards from the end to the beginning.
  void trace(TakeAlignment& found, std::size_t s) const {
    std::size_t t = take_.size();
    while (true) {
      const auto step = step_to(t, s);
      if (!step) {
        if (t == 0) break;
        const std::size_t origin = jumps_[t].origin;
        if (s < origin) found.restarts.push_back({.after = found.attempts.size(), .from = origin, .back_to = s});
        if (s > origin) found.skips.push_back({.after = found.attempts.size(), .from = origin, .to = s});
        s = origin;
        continue;
      }
      if (*step == Step::begin) break;
      if (*step == Step::add) {
        found.added.push_back(--t);
        continue;
      }
      --s;
      if (*step == Step::miss) {
        found.attempts.push_back({.sheet = s, .take = std::nullopt, .struck = Struck::missing});
      } else {
        --t;
        found.attempts.push_back({.sheet = s, .take = t, .struck = struck(t, s)});
      }
    }
    found.first_played = s;
  }

  static void turn_round(TakeAlignment& found) {
    std::ranges::reverse(found.attempts);
    std::ranges::reverse(found.added);
    std::ranges::reverse(found.restarts);
    std::ranges::reverse(found.skips);
    for (Restart& restart : found.restarts) restart.after = found.attempts.size() - restart.after;
    for (Skip& skip : found.skips) skip.after = found.attempts.size() - skip.after;
    for (const Restart& restart : found.restarts) found.played_to = std::max(found.played_to, restart.from);
  }

  std::span<const int> sheet_;
  std::span<const int> take_;
  ExactCosts costs_;
  std::array<std::vector<std::size_t>, octave> by_name_;
  std::vector<Place> row_;           ///< the last one
  std::vector<std::uint32_t> kept_;  ///< all rows, packed
  std::vector<std::size_t> begins_;  ///< by row: where it begins in `kept_`
  std::vector<Jumps> jumps_;         ///< by row
};

}  // namespace

TakeAlignment align_take(std::span<const int> sheet, std::span<const int> take, const AlignmentCosts& costs) {
  return Ways(sheet, take, costs).cheapest();
}

}  // namespace insideline
