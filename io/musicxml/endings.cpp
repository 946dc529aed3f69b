#include "io/musicxml/endings.hpp"

#include <algorithm>

namespace insideline::io {
namespace {

/// Brackets often stop before the bar with the repeat sign. One past that bar, where the ending that begins at `first`
/// and whose bracket stops before `stop` needs it to turn back: another ending follows, or it is a first one.
std::size_t end_at_repeat(std::span<const RoadSigns> signs, std::size_t first, std::size_t stop, bool leads_group) {
  for (std::size_t i = stop; i < signs.size(); ++i) {
    if (!signs[i].ending_start.empty() || signs[i].forward_repeat) break;
    if (!signs[i].backward_repeat) continue;
    const bool another = i + 1 < signs.size() && !signs[i + 1].ending_start.empty();
    const bool is_first =
        leads_group && std::ranges::find(signs[first].ending_start, 1) != signs[first].ending_start.end();
    return another || is_first ? i + 1 : stop;
  }
  return stop;
}

/// Where the ending that begins at `first` ends: at its repeat, its stop, or where another begins.
std::size_t end_of_ending(std::span<const RoadSigns> signs, std::size_t first, bool leads_group) {
  for (std::size_t i = first; i < signs.size(); ++i) {
    if (i > first && (!signs[i].ending_start.empty() || signs[i].forward_repeat)) return i;
    if (signs[i].backward_repeat) return i + 1;
    if (signs[i].ending_stop) return end_at_repeat(signs, first, i + 1, leads_group);
  }
  // An ending that nothing closes is one measure long: to swallow the rest of the piece is worse.
  return first + 1;
}

bool begins_repeat(std::span<const RoadSigns> signs, const Ending& ending) {
  return std::any_of(signs.begin() + static_cast<std::ptrdiff_t>(ending.first),
                     signs.begin() + static_cast<std::ptrdiff_t>(ending.end),
                     [](const RoadSigns& measure) { return measure.forward_repeat; });
}

bool turns_back(std::span<const RoadSigns> signs, const Ending& ending) {
  return signs[ending.end - 1].backward_repeat.has_value();
}

int last_pass_of(std::span<const Ending> group) {
  int last = 1;
  for (const Ending& ending : group) last = std::max(last, std::ranges::max(ending.passes));
  return last;
}

/// The endings of one repeat, as they stand side by side.
class Group {
 public:
  explicit Group(std::span<const RoadSigns> signs) : signs_(signs) {}

  /// False where `ending` belongs to another repeat.
  [[nodiscard]] bool is_followed_by(const Ending& ending) const {
    const bool opened = endings_.size() > 1 && begins_repeat(signs_, endings_.back());
    return !endings_.empty() && endings_.back().end == ending.first && !opened;
  }

  void add(Ending ending) {
    const bool told_before = std::ranges::all_of(ending.passes, [&](int pass) {
      return std::ranges::any_of(endings_, [&](const Ending& other) { return has_pass(other, pass); });
    });
    if (told_before && !turns_back(signs_, endings_.back())) {
      endings_.back().end = ending.end;  // one ending under two brackets
      return;
    }
    if (told_before) {
      ending.passes = {last_pass_of(endings_) + 1};
      renumbered_.push_back(ending.first);
    }
    endings_.push_back(std::move(ending));
  }

  void finish(Endings& found) {
    if (endings_.empty()) return;
    begin_with_one();
    const bool alone = endings_.size() == 1 && turns_back(signs_, endings_.front());
    const int passes = last_pass_of(endings_) + (alone ? 1 : 0);
    const bool after_jump = std::ranges::any_of(endings_, [&](const Ending& ending) {
      return turns_back(signs_, ending) && signs_[ending.end - 1].backward_repeat->after_jump;
    });
    for (Ending& ending : endings_) {
      ending.group_first = endings_.front().first;
      ending.group_end = endings_.back().end;
      ending.group_passes = passes;
      ending.after_jump = after_jump;
    }
    found.all.insert(found.all.end(), endings_.begin(), endings_.end());
    found.renumbered.insert(found.renumbered.end(), renumbered_.begin(), renumbered_.end());
    endings_.clear();
    renumbered_.clear();
  }

  [[nodiscard]] bool empty() const { return endings_.empty(); }

 private:
  /// Where no ending is for the first pass, the lowest number is.
  void begin_with_one() {
    int lowest = last_pass_of(endings_);
    for (const Ending& ending : endings_) lowest = std::min(lowest, std::ranges::min(ending.passes));
    if (lowest == 1) return;
    for (Ending& ending : endings_)
      for (int& pass : ending.passes) pass -= lowest - 1;
    const bool repeated =
        std::ranges::any_of(endings_, [&](const Ending& ending) { return turns_back(signs_, ending); });
    if (repeated) renumbered_.push_back(endings_.front().first);
  }

  std::span<const RoadSigns> signs_;
  std::vector<Ending> endings_;
  std::vector<std::size_t> renumbered_;
};

}  // namespace

bool has_pass(const Ending& ending, int pass) { return std::ranges::find(ending.passes, pass) != ending.passes.end(); }

Endings find_endings(std::span<const RoadSigns> signs) {
  Endings found;
  Group group(signs);
  for (std::size_t i = 0; i < signs.size(); ++i) {
    if (signs[i].ending_start.empty()) continue;
    Ending ending{.first = i, .end = i, .passes = signs[i].ending_start};
    if (!group.is_followed_by(ending)) group.finish(found);
    ending.end = end_of_ending(signs, i, group.empty());
    group.add(std::move(ending));
  }
  group.finish(found);
  return found;
}

}  // namespace insideline::io
