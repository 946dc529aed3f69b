#include "io/midi/timeline.hpp"

#include "analyzer/metre.hpp"
#include "io/read_result.hpp"

#include <algorithm>
#include <cmath>

namespace insideline::io {
namespace {

constexpr std::size_t most_bars = 50'000;

std::int64_t units_of(const Beats& place) {
  const Beats units = place * Beats(units_per_quarter);
  return (2 * units.numerator() + units.denominator()) / (2 * units.denominator());
}

/// The beat to divide: the felt one, but never more than a quarter note in simple meters.
Beats beat_to_divide(const Meter& meter) {
  const Beats beat = felt_beat(meter);
  const bool is_long = meter.unit < 4;  // 2/2 and its kin
  return is_long ? Beats(1) : beat;
}

BeatKind kind_of(const Beats& beat, const Meter& meter) {
  return beat == Beats(3) * beat_length(meter) ? BeatKind::compound : BeatKind::simple;
}

/// The first meter is a pickup where it lasts for one bar and the next one is longer.
std::optional<Beats> declared_pickup(const MidiSong& song) {
  if (song.meters.size() < 2 || song.meters[0].ticks != 0) return std::nullopt;
  const Beats first = bar_length(song.meters[0].meter);
  const bool one_bar = Beats(song.meters[1].ticks, song.ticks_per_quarter) == first;
  if (!one_bar || first >= bar_length(song.meters[1].meter)) return std::nullopt;
  return first;
}

std::vector<Bar> bars_of(const MidiSong& song, const Beats& end, std::string_view file_name) {
  std::vector<Bar> bars;
  std::size_t next = 0;
  Meter meter;
  Beats onset;
  while (onset < end || bars.empty()) {
    while (next < song.meters.size() && Beats(song.meters[next].ticks, song.ticks_per_quarter) <= onset)
      meter = song.meters[next++].meter;
    Beats length = bar_length(meter);
    if (next < song.meters.size())
      length = std::min(length, Beats(song.meters[next].ticks, song.ticks_per_quarter) - onset);
    if (bars.size() == most_bars)
      throw ReadError(place_of(file_name), "it lasts for more than 50,000 bars; is it the right file?");
    bars.push_back({static_cast<int>(bars.size()) + 1, onset, length, meter});
    onset += length;
  }
  return bars;
}

/// What is left of a bar after its last whole beat is a beat of its own.
void add_cells(const Bar& bar, const MidiSong& song, const TempoClock& clock, std::vector<BeatCell>& cells) {
  const Beats beat = beat_to_divide(bar.meter);
  const std::int64_t beat_units = units_of(beat);
  const std::int64_t end = units_of(bar.onset + bar.length);
  const BeatKind kind = kind_of(beat, bar.meter);
  const double ticks_per_unit = static_cast<double>(song.ticks_per_quarter) / units_per_quarter;
  const auto seconds_at = [&](std::int64_t units) {
    return clock.seconds_at(static_cast<double>(units) * ticks_per_unit);
  };
  std::int64_t onset = units_of(bar.onset);
  double seconds = seconds_at(onset);
  while (onset < end) {
    const std::int64_t next = std::min(onset + beat_units, end);
    const double next_seconds = seconds_at(next);
    const bool whole = next - onset == beat_units;
    cells.push_back({onset, next - onset, seconds, next_seconds - seconds, whole ? kind : BeatKind::simple});
    onset = next;
    seconds = next_seconds;
  }
}

/// A bar lasts from one downbeat to the next. Before the first and after the last they are as long as the highest
/// number.
std::vector<Bar> bars_from_numbers(std::span<const TappedBeat> taps, std::size_t before, std::size_t beat_count) {
  std::vector<std::size_t> downbeats;
  for (std::size_t i = 0; i < taps.size(); ++i)
    if (taps[i].number == 1) downbeats.push_back(i + before);
  std::vector<Bar> bars;
  if (downbeats.empty()) return bars;
  int highest = 1;
  for (const TappedBeat& tap : taps) highest = std::max(highest, tap.number.value_or(1));
  const auto add = [&](std::size_t from, std::size_t to) {
    const auto beats = static_cast<std::int64_t>(to - from);
    bars.push_back({static_cast<int>(bars.size()) + 1,
                    Beats(static_cast<std::int64_t>(from)),
                    beats,
                    {.beats = static_cast<int>(beats), .unit = 4}});
  };
  const auto whole_bar = static_cast<std::size_t>(highest);
  std::size_t first = downbeats.front();
  while (first >= whole_bar) first -= whole_bar;
  if (first > 0) {
    add(0, first);
    bars.back().meter.beats = highest;
  }
  for (; first < downbeats.front(); first += whole_bar) add(first, first + whole_bar);
  for (std::size_t i = 0; i + 1 < downbeats.size(); ++i) add(downbeats[i], downbeats[i + 1]);
  for (std::size_t at = downbeats.back(); at < beat_count; at += whole_bar) add(at, at + whole_bar);
  return bars;
}

std::vector<Bar> bars_of_meter(const Meter& meter, std::size_t beat_count) {
  std::vector<Bar> bars;
  const Beats length = bar_length(meter);
  for (Beats onset; onset < Beats(static_cast<std::int64_t>(beat_count)); onset += length)
    bars.push_back({static_cast<int>(bars.size()) + 1, onset, length, meter});
  return bars;
}

}  // namespace

Timeline timeline_of(const MidiSong& song, std::uint32_t end_ticks, std::string_view file_name) {
  Timeline timeline;
  timeline.bars = bars_of(song, Beats(end_ticks, song.ticks_per_quarter), file_name);
  timeline.bar_one = declared_pickup(song);
  if (timeline.bar_one) timeline.bars.front().meter = song.meters[1].meter;
  return timeline;
}

std::vector<BeatCell> cells_of(const std::vector<Bar>& bars, const MidiSong& song, const TempoClock& clock) {
  std::vector<BeatCell> cells;
  for (const Bar& bar : bars) add_cells(bar, song, clock, cells);
  // A last note that is played early for the next bar needs that bar.
  Bar next = bars.back();
  next.onset += next.length;
  next.length = bar_length(next.meter);
  add_cells(next, song, clock, cells);
  return cells;
}

Timeline timeline_of(std::span<const TappedBeat> taps, const Meter& meter, double first_seconds, double end_seconds) {
  Timeline timeline;
  const double first_length = taps[1].seconds - taps[0].seconds;
  const double last_length = taps.back().seconds - taps[taps.size() - 2].seconds;
  const double early = std::max(0.0, taps.front().seconds - first_seconds);
  const auto before = static_cast<std::size_t>(std::min(std::ceil(early / first_length), 1.0 * most_bars));
  const double late = std::max(0.0, end_seconds - taps.back().seconds);
  const auto after = static_cast<std::size_t>(std::min(std::ceil(late / last_length), 1.0 * most_bars)) + 2;
  const auto add = [&](double seconds, double length) {
    timeline.cells.push_back({static_cast<std::int64_t>(timeline.cells.size()) * units_per_quarter, units_per_quarter,
                              seconds, length, BeatKind::simple});
  };
  for (std::size_t i = before; i > 0; --i)
    add(taps.front().seconds - static_cast<double>(i) * first_length, first_length);
  for (std::size_t i = 0; i + 1 < taps.size(); ++i) add(taps[i].seconds, taps[i + 1].seconds - taps[i].seconds);
  for (std::size_t i = 0; i < after; ++i) add(taps.back().seconds + static_cast<double>(i) * last_length, last_length);
  timeline.bars = bars_from_numbers(taps, before, timeline.cells.size());
  if (timeline.bars.empty()) {
    timeline.bars = bars_of_meter(meter, timeline.cells.size());
  } else if (timeline.bars.front().length < bar_length(timeline.bars.front().meter)) {
    timeline.bar_one = timeline.bars.front().length;
  } else {
    timeline.bar_one = Beats(0);
  }
  return timeline;
}

double units_at(std::span<const BeatCell> cells, double seconds) {
  const auto after = std::ranges::upper_bound(cells, seconds, {}, &BeatCell::onset_seconds);
  const BeatCell& cell = after == cells.begin() ? cells.front() : *std::prev(after);
  return static_cast<double>(cell.onset) +
         (seconds - cell.onset_seconds) / cell.length_seconds * static_cast<double>(cell.length);
}

std::vector<Bar> counted_from(const std::vector<Bar>& bars, const Beats& bar_one, const Beats& first_note,
                              std::string_view file_name) {
  const auto bar_of = [&](const Beats& place) {
    const auto after = std::ranges::upper_bound(bars, place, {}, &Bar::onset);
    return after == bars.begin() ? bars.begin() : std::prev(after);
  };
  const auto one = bar_of(bar_one);
  std::vector<Bar> counted;
  if (first_note < bar_one) {
    const Meter meter = one->meter;
    const Beats unit = beat_length(meter);
    const Beats pickup = unit * Beats(-whole_units(first_note - bar_one, unit));
    if (pickup > bar_length(meter))
      throw ReadError(place_of(file_name), "notes sound more than a bar before bar 1; move it with --bar-one");
    counted.push_back({0, -pickup, pickup, meter});
  }
  Bar bar = *one;
  if (bar.onset != bar_one) {  // the bars move with bar 1
    const std::size_t count = static_cast<std::size_t>(bars.end() - one);
    for (std::size_t i = 0; i < count; ++i)
      counted.push_back({static_cast<int>(i) + 1, Beats(static_cast<std::int64_t>(i)) * bar_length(bar.meter),
                         bar_length(bar.meter), bar.meter});
    return counted;
  }
  for (auto each = one; each != bars.end(); ++each)
    counted.push_back({static_cast<int>(each - one) + 1, each->onset - bar_one, each->length, each->meter});
  return counted;
}

}  // namespace insideline::io
