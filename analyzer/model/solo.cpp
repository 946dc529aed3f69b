#include "analyzer/model/solo.hpp"

#include <algorithm>
#include <cassert>
#include <iterator>

namespace insideline {

std::size_t bar_index_at(const Solo& solo, const Beats& position) {
  assert(!solo.bars.empty() && "a solo has bars");
  const auto after = std::ranges::upper_bound(solo.bars, position, {}, &Bar::onset);
  return after == solo.bars.begin() ? 0 : static_cast<std::size_t>(std::distance(solo.bars.begin(), after)) - 1;
}

Beats beat_in_bar(const Bar& bar, const Beats& position) {
  const Beats full_bar_onset = bar.number == 0 ? bar.onset + bar.length - bar_length(bar.meter) : bar.onset;
  return (position - full_bar_onset) / beat_length(bar.meter) + 1;
}

Beats end_of(const Note& note) { return note.onset + note.duration; }

Beats end_of(const Solo& solo) {
  assert(!solo.bars.empty() && "a solo has bars");
  return solo.bars.back().onset + solo.bars.back().length;
}

std::optional<Key> key_at(const Solo& solo, const Beats& position) {
  const auto after = std::ranges::upper_bound(solo.keys, position, {}, &KeyChange::onset);
  if (after == solo.keys.begin()) return std::nullopt;
  return std::prev(after)->key;
}

}  // namespace insideline
