#include "analyzer/measures/rotation.hpp"

#include <algorithm>
#include <span>

namespace insideline {
namespace {

std::size_t first_full_bar(const Solo& solo) {
  return !solo.bars.empty() && solo.bars.front().number < 1 && solo.bars.size() > 1 ? 1 : 0;
}

/// As many bars as one pass of the form has, if the solo plays it whole; else all full bars.
std::size_t bars_in_ring(std::span<const Bar> bars, const Beats& form) {
  Beats length;
  for (std::size_t i = 0; i < bars.size() && length < form; ++i) {
    length += bars[i].length;
    if (length == form) return i + 1;
  }
  return bars.size();
}

void add_span(std::vector<BarSpan>& spans, const BarSpan& span) {
  if (!spans.empty() && spans.back().tones == span.tones) return;
  spans.push_back(span);
}

/// `stretch` is the first that ends after the bar line.
std::vector<BarSpan> spans_of(const Bar& bar, std::span<const Stretch> stretches, std::size_t stretch) {
  std::vector<BarSpan> spans;
  Beats covered = bar.onset;
  const Beats end = bar.onset + bar.length;
  for (; stretch < stretches.size() && stretches[stretch].onset < end; ++stretch) {
    const Stretch& here = stretches[stretch];
    const Beats onset = std::max(here.onset, bar.onset);
    if (onset > covered) add_span(spans, {.offset = covered - bar.onset, .tones = std::nullopt});
    add_span(spans, {.offset = onset - bar.onset, .tones = here.tones});
    covered = here.end;
  }
  if (covered < end) add_span(spans, {.offset = covered - bar.onset, .tones = std::nullopt});
  return spans;
}

/// The smallest turn that leaves the ring as it is; it divides the number of bars.
std::size_t period_of(const std::vector<std::vector<BarSpan>>& bars) {
  const std::size_t count = bars.size();
  for (std::size_t turn = 1; turn < count; ++turn) {
    if (count % turn != 0) continue;
    const auto whole = std::span(bars);
    if (std::ranges::equal(whole.subspan(turn), whole.first(count - turn))) return turn;
  }
  return std::max<std::size_t>(count, 1);
}

}  // namespace

ChangesRing ring_of(const Solo& solo, const Harmony& harmony, const HeardLine& line) {
  ChangesRing ring;
  ring.first_bar = first_full_bar(solo);
  const auto full_bars = std::span(solo.bars).subspan(ring.first_bar);
  const std::size_t count = bars_in_ring(full_bars, harmony.chorus_length);
  std::size_t stretch = 0;
  for (const Bar& bar : full_bars.first(count)) {
    while (stretch < line.stretches.size() && line.stretches[stretch].end <= bar.onset) ++stretch;
    ring.bars.push_back(spans_of(bar, line.stretches, stretch));
  }
  ring.period = period_of(ring.bars);
  return ring;
}

std::optional<std::size_t> bar_under(const ChangesRing& ring, std::size_t bar, std::size_t turn) {
  if (bar < ring.first_bar || ring.bars.empty()) return std::nullopt;
  return (bar - ring.first_bar + turn) % ring.bars.size();
}

}  // namespace insideline
