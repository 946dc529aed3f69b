#include "analyzer/notation/note_values.hpp"

#include <algorithm>
#include <array>
#include <cassert>

namespace insideline {
namespace {

constexpr std::array values_by_length{
    NoteValue{1, 1},  NoteValue{1, 0},  NoteValue{2, 1},  NoteValue{2, 0},  NoteValue{4, 1},
    NoteValue{4, 0},  NoteValue{8, 1},  NoteValue{8, 0},  NoteValue{16, 1}, NoteValue{16, 0},
    NoteValue{32, 1}, NoteValue{32, 0}, NoteValue{64, 0},
};

bool is_on(const Beats& place, const Beats& grid) { return remainder_within(place, grid) == Beats(0); }

/// A dotted value without its dot.
Beats undotted(const NoteValue& value) { return length_of({value.divisor, 0}); }

/// In beats that are halved and halved again, the value may start where it belongs, in
/// the middle of a group twice its length, or, dotted, fill the end of such a group.
bool note_fits_halves(const NoteValue& value, const Beats& place) {
  const Beats plain = undotted(value);
  const Beats group = plain * 2;
  if (value.dots == 0) return is_on(place, plain) || is_on(place - plain / 2, group);
  return is_on(place, group) || is_on(place - plain / 2, group);
}

bool fits_simple(const Meter& meter, Sounding sounding, const NoteValue& value, const Beats& place) {
  if (sounding == Sounding::note) return note_fits_halves(value, place);
  const bool beats_pair_up = meter.beats % 2 == 0;
  const Beats longest = beats_pair_up ? beat_length(meter) * 2 : beat_length(meter);
  return value.dots == 0 && length_of(value) <= longest && is_on(place, length_of(value));
}

/// In beats of three, the value fills whole beats, two thirds or one, or halves of a third.
bool fits_compound(const Meter& meter, Sounding sounding, const NoteValue& value, const Beats& place) {
  const Beats beat = reading_beat(meter);
  const Beats third = beat / 3;
  const Beats length = length_of(value);
  const Beats within = remainder_within(place, beat);
  if (length >= beat) return is_on(length, beat) && is_on(place, length);
  if (within + length > beat) return false;
  if (length == third * 2) return within == Beats(0) || (sounding == Sounding::note && within == third);
  if (sounding == Sounding::rest) return value.dots == 0 && is_on(within, length);
  if (length > third) return is_on(within, length);
  const Beats inside_third = remainder_within(within, third);
  return inside_third + length <= third && note_fits_halves(value, inside_third);
}

bool is_compound(const Meter& meter) { return meter.beats % 3 == 0 && (meter.beats > 3 || meter.unit >= 8); }

}  // namespace

Beats length_of(const NoteValue& value) {
  const Beats plain = Beats(4, value.divisor);
  return value.dots == 0 ? plain : plain * Beats(3, 2);
}

Beats reading_beat(const Meter& meter) {
  if (is_compound(meter)) return beat_length(meter) * 3;
  return std::min(beat_length(meter), Beats(1));
}

std::vector<NoteValue> values_in_bar(const Meter& meter, Sounding sounding, Beats onset, const Beats& end) {
  std::vector<NoteValue> values;
  while (onset < end) {
    const auto longest = std::ranges::find_if(values_by_length, [&](const NoteValue& value) {
      if (length_of(value) > end - onset) return false;
      return is_compound(meter) ? fits_compound(meter, sounding, value, onset)
                                : fits_simple(meter, sounding, value, onset);
    });
    // Meters that count in less than sixty-fourths have no place for a value; the smallest goes anywhere.
    values.push_back(longest == values_by_length.end() ? values_by_length.back() : *longest);
    onset += length_of(values.back());
  }
  return values;
}

std::vector<NoteValue> values_in_tuplet(Sounding sounding, Beats length) {
  std::vector<NoteValue> values;
  while (length > Beats(0)) {
    const auto longest = std::ranges::find_if(values_by_length, [&](const NoteValue& value) {
      return length_of(value) <= length && (value.dots == 0 || sounding == Sounding::note);
    });
    assert(longest != values_by_length.end() && "tuplets are made of whole sixty-fourths");
    values.push_back(*longest);
    length -= length_of(*longest);
  }
  return values;
}

}  // namespace insideline
