#include "analyzer/chart_part.hpp"

#include <algorithm>
#include <cassert>

namespace insideline {

Changes part_of(const Changes& changes, std::size_t first, std::size_t count) {
  assert(count > 0 && first + count <= changes.bars.size() && "the chart has these bars");
  const Beats begin = changes.bars[first].onset;
  const FormBar& last = changes.bars[first + count - 1];
  const Beats end = last.onset + last.length;
  Changes part = changes;
  part.pickup.reset();
  part.bars.assign(changes.bars.begin() + static_cast<std::ptrdiff_t>(first),
                   changes.bars.begin() + static_cast<std::ptrdiff_t>(first + count));
  for (FormBar& bar : part.bars) bar.onset -= begin;
  part.spans.clear();
  for (ChordSpan span : changes.spans) {
    const Beats from = std::max(span.onset, begin);
    const Beats to = std::min(span.onset + span.duration, end);
    if (from >= to) continue;
    span.onset = from - begin;
    span.duration = to - from;
    part.spans.push_back(std::move(span));
  }
  return part;
}

}  // namespace insideline
