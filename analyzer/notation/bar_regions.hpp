// Where a bar needs tuplets. A bar is cut at the places where something begins; the places
// that halving never reaches lie in tuplets, and each tuplet gets its limits and its number.
#pragma once

#include "analyzer/model/beats.hpp"

#include <span>
#include <vector>

namespace insideline {

/// A stretch of a bar. `notes` in the time of `in_time_of` values of length `unit`;
/// outside tuplets both are 1 and `unit` is 0.
struct Region {
  Beats onset;
  Beats end;
  int notes = 1;
  int in_time_of = 1;
  Beats unit;  ///< the plain value that is counted; 1/2 for triplet eighths
};

/// Whether halving whole notes reaches the place, down to sixty-fourths.
bool is_plain(const Beats& place);

/// Up to the next thirty-second.
Beats rounded_up(const Beats& place);

/// `places` (in order, the first and last plain) with those moved to the nearest thirty-second
/// that no tuplet of at most 24 within their beat reaches; as many as before, perhaps some alike.
std::vector<Beats> writable_places(std::span<const Beats> places, const Beats& beat);

/// The regions of a bar, in order and without gaps, from the first to the last of `places`.
/// `places` are writable, in order and not two alike.
std::vector<Region> regions_of(std::span<const Beats> places, const Beats& beat);

}  // namespace insideline
