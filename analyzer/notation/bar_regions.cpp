#include "analyzer/notation/bar_regions.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <iterator>
#include <numeric>
#include <optional>
#include <utility>

namespace insideline {
namespace {

constexpr std::int64_t smallest_denominator = 16;  // of a sixty-fourth, in quarters
constexpr std::int64_t thirty_seconds_in_a_quarter = 8;
constexpr std::int64_t most_in_a_tuplet = 24;

bool is_power_of_two(std::int64_t number) { return number > 0 && (number & (number - 1)) == 0; }

/// A length that one plain or one dotted value fills, so that tuplets of it can be counted.
bool is_countable(const Beats& length) {
  const std::int64_t numerator = length.numerator();
  return is_plain(length) && is_power_of_two(numerator % 3 == 0 ? numerator / 3 : numerator);
}

Beats floor_to(const Beats& place, const Beats& grid) { return place - remainder_within(place, grid); }
Beats ceiling_to(const Beats& place, const Beats& grid) { return -floor_to(-place, grid); }

Beats snapped(const Beats& place) {
  const Beats grid(1, thirty_seconds_in_a_quarter);
  return floor_to(place + grid / 2, grid);
}

/// The places strictly between.
std::span<const Beats> between(std::span<const Beats> places, const Beats& onset, const Beats& end) {
  const auto first = std::ranges::upper_bound(places, onset);
  const auto last = std::ranges::lower_bound(places, end);
  return first < last ? std::span(first, last) : std::span<const Beats>{};
}

/// Into how many equal parts the stretch falls so that every place is reached; none above the limit.
std::optional<std::int64_t> parts(std::span<const Beats> inside, const Beats& onset, const Beats& end) {
  std::int64_t count = 1;
  for (const Beats& place : inside) {
    const std::int64_t denominator = ((place - onset) / (end - onset)).denominator();
    if (denominator > most_in_a_tuplet) return std::nullopt;
    count = std::lcm(count, denominator);
    if (count > most_in_a_tuplet) return std::nullopt;
  }
  return count;
}

/// Three in the time of two over the whole stretch, where at most one of the three is divided.
bool is_triplet(std::span<const Beats> inside, const Beats& onset, const Beats& end) {
  const Beats length = end - onset;
  if (length <= Beats(0) || !is_power_of_two(length.numerator()) || inside.empty()) return false;
  std::size_t dividing = 0;
  for (const Beats& place : inside) {
    if (remainder_within(place - onset, length / 6) != Beats(0)) return false;
    if (remainder_within(place - onset, length / 3) != Beats(0)) ++dividing;
  }
  return dividing <= 1 && dividing < inside.size();
}

/// How many of something there are in the time of how many: 3 of 2, 5 and 6 of 4; where the
/// stretch is a dotted value 2 and 4 of 3, 7 of 6.
Region tuplet(std::span<const Beats> inside, const Beats& onset, const Beats& end) {
  const Beats length = end - onset;
  if (is_triplet(inside, onset, end)) return {onset, end, 3, 2, length / 2};
  const std::int64_t count = parts(inside, onset, end).value_or(most_in_a_tuplet);
  std::int64_t time = length.numerator() % 3 == 0 ? 3 : 1;
  while (time * 2 < count) time *= 2;
  return {onset, end, static_cast<int>(count), static_cast<int>(time), length / time};
}

/// A stretch between plain places without a plain one inside; `inside` is not empty.
struct OddStretch {
  Beats onset;
  Beats end;
  std::span<const Beats> inside;
};

std::vector<OddStretch> odd_stretches(std::span<const Beats> places, const Beats& onset, const Beats& end) {
  std::vector<OddStretch> stretches;
  const auto inside = between(places, onset, end);
  for (auto at = inside.begin();;) {
    const auto odd = std::find_if_not(at, inside.end(), is_plain);
    if (odd == inside.end()) return stretches;
    const auto after = std::find_if(odd, inside.end(), is_plain);
    stretches.push_back(
        {odd == inside.begin() ? onset : *std::prev(odd), after == inside.end() ? end : *after, std::span(odd, after)});
    at = after;
  }
}

/// The triplet of several whole beats that the stretch makes, if it does: quarters in two
/// beats, halves in four. A note held into it or out of it is tied at the beat.
std::optional<Region> wide_triplet(const OddStretch& stretch, const Beats& beat) {
  const Beats inner_onset = std::max(stretch.onset, floor_to(stretch.inside.front(), beat));
  const Beats inner_end = std::min(stretch.end, ceiling_to(stretch.inside.back(), beat));
  for (const auto& [onset, end] : {std::pair(stretch.onset, stretch.end), std::pair(inner_onset, inner_end)}) {
    const bool is_of_beats = floor_to(onset, beat) == onset && floor_to(end, beat) == end && end - onset > beat;
    if (is_of_beats && is_triplet(stretch.inside, onset, end)) return tuplet(stretch.inside, onset, end);
  }
  return std::nullopt;
}

/// The tuplets within one beat: each odd stretch for itself where it can be counted, else all of it.
std::vector<Region> tuplets_in_beat(std::span<const Beats> places, const Beats& onset, const Beats& end) {
  std::vector<Region> regions;
  for (const OddStretch& stretch : odd_stretches(places, onset, end)) {
    if (!is_power_of_two((stretch.end - stretch.onset).numerator()))
      return {tuplet(between(places, onset, end), onset, end)};
    regions.push_back(tuplet(stretch.inside, stretch.onset, stretch.end));
  }
  return regions;
}

/// All tuplets, beat by beat, except where a wide one lies.
std::vector<Region> tuplets_of(std::span<const Beats> places, const Beats& beat) {
  std::vector<Region> regions;
  for (const OddStretch& stretch : odd_stretches(places, places.front(), places.back()))
    if (const auto wide = wide_triplet(stretch, beat)) regions.push_back(*wide);
  const std::vector<Region> wide = regions;
  for (Beats at = places.front(); at < places.back();) {
    const Beats next = std::min(places.back(), floor_to(at, beat) + beat);
    const bool is_taken =
        std::ranges::any_of(wide, [&](const Region& region) { return region.onset < next && at < region.end; });
    if (!is_taken) std::ranges::copy(tuplets_in_beat(places, at, next), std::back_inserter(regions));
    at = next;
  }
  std::ranges::sort(regions, {}, &Region::onset);
  return regions;
}

void add_plain(std::vector<Region>& regions, const Beats& onset, const Beats& end) {
  if (onset < end) regions.push_back({onset, end, 1, 1, Beats(0)});
}

}  // namespace

bool is_plain(const Beats& place) {
  return is_power_of_two(place.denominator()) && place.denominator() <= smallest_denominator;
}

Beats rounded_up(const Beats& place) { return ceiling_to(place, Beats(1, thirty_seconds_in_a_quarter)); }

std::vector<Beats> writable_places(std::span<const Beats> places, const Beats& beat) {
  std::vector<Beats> result(places.begin(), places.end());
  for (Beats at = places.front(); at < places.back();) {
    const Beats next = std::min(places.back(), floor_to(at, beat) + beat);
    const auto inside = between(places, at, next);
    const bool is_writable =
        std::ranges::all_of(inside, is_plain) || (is_countable(next - at) && parts(inside, at, next).has_value());
    for (std::size_t place = 0; place < places.size() && !is_writable; ++place)
      if (places[place] > at && places[place] < next) result[place] = std::clamp(snapped(places[place]), at, next);
    at = next;
  }
  return result;
}

std::vector<Region> regions_of(std::span<const Beats> places, const Beats& beat) {
  std::vector<Region> regions;
  Beats written = places.front();
  for (const Region& region : tuplets_of(places, beat)) {
    add_plain(regions, written, region.onset);
    regions.push_back(region);
    written = region.end;
  }
  add_plain(regions, written, places.back());
  return regions;
}

}  // namespace insideline
