#include "io/midi/bar_one.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>

namespace insideline::io {

BarOne bar_one_of_recording(const Timeline& timeline, std::span<const LineNote> line) {
  if (line.empty()) return {};
  const Beats first = line.front().onset;
  const auto after = std::ranges::upper_bound(timeline.bars, first, {}, &Bar::onset);
  const auto bar = after == timeline.bars.begin() ? after : std::prev(after);
  const auto empty_bars = bar - timeline.bars.begin();
  if (empty_bars == 0) return {};
  const bool is_pickup = (first - bar->onset) * Beats(2) >= bar->length && std::next(bar) != timeline.bars.end();
  const auto one = is_pickup ? std::next(bar) : bar;
  return {one->onset,
          fmt::format(
              "{} before the {} {} taken as a count-in: bar 1 is bar {} of the file; --bar-one 0 counts from the "
              "start",
              empty_bars == 1 ? "an empty bar" : fmt::format("{} empty bars", empty_bars),
              is_pickup ? "pickup" : "first note", empty_bars == 1 ? "was" : "were", one - timeline.bars.begin() + 1)};
}

BarOne bar_one_by_accent(const Timeline& timeline, std::span<const LineNote> line) {
  assert(!timeline.bars.empty() && "there are bars");
  constexpr double clearly = 1.2;  // another beat must carry so much more to be taken for the first
  const Meter meter = timeline.bars.front().meter;
  const Beats length = bar_length(meter);
  const Beats beat = beat_length(meter);
  std::vector<double> weight(static_cast<std::size_t>(meter.beats), 0.0);
  for (const LineNote& note : line) {
    const Beats within = remainder_within(note.onset, length) / beat;
    if (within.denominator() == 1) weight.at(static_cast<std::size_t>(within.numerator())) += to_double(note.duration);
  }
  const auto heaviest = std::ranges::max_element(weight);
  if (*heaviest < clearly * weight.front()) return {};
  const auto beats = heaviest - weight.begin();
  return {Beats(beats) * beat, fmt::format("bar 1 was put on beat {} of the tapped beats, which carries the longest "
                                           "notes; --bar-one says otherwise",
                                           beats + 1)};
}

}  // namespace insideline::io
