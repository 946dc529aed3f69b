#include "analyzer/metre.hpp"

#include <string>

namespace insideline {
namespace {

constexpr int off_beat_dots = 1;
constexpr int beat_dots = 2;
constexpr int half_bar_dots = 3;

struct PlaceInBar {
  std::int64_t beat = 0;  ///< 0 = the first counted beat
  Beats within;           ///< 0 <= within < 1 counted beat
};

PlaceInBar place_in_bar(const Bar& bar, const Beats& position) {
  const Beats beat = beat_in_bar(bar, position) - 1;
  const std::int64_t whole = whole_units(beat, 1);
  return {whole, beat - Beats(whole)};
}

/// Meters of 6, 9, 12 eighths are felt in groups of three.
bool is_compound(const Meter& meter) { return meter.unit >= 8 && meter.beats % 3 == 0 && meter.beats > 3; }

int dots_on_beat(const Meter& meter, std::int64_t beat) {
  const bool halves = meter.beats == 4 || meter.beats == 6;
  const int downbeat = meter.beats == 4 ? half_bar_dots + 1 : half_bar_dots;
  if (beat == 0) return downbeat;
  if (is_compound(meter)) return beat % 3 == 0 ? beat_dots : off_beat_dots;
  if (halves && beat == meter.beats / 2) return half_bar_dots;
  return beat_dots;
}

}  // namespace

int metrical_weight(const Meter& meter, std::int64_t from_bar_line, std::int64_t beat, Feel feel) {
  const std::int64_t within = from_bar_line % beat;
  if (within == 0) return dots_on_beat(meter, from_bar_line / beat);
  const bool halfway = within * 2 == beat;
  const bool swung = within * 3 == beat * 2 || within * 4 == beat * 3;
  if (halfway || (feel == Feel::swing && swung)) return is_compound(meter) ? 0 : off_beat_dots;
  return 0;
}

int metrical_weight(const Bar& bar, const Beats& position, Feel feel) {
  const Beats beat = beat_in_bar(bar, position) - 1;
  return metrical_weight(bar.meter, beat.numerator(), beat.denominator(), feel);
}

Beats felt_beat(const Meter& meter) { return is_compound(meter) ? Beats(3) * beat_length(meter) : beat_length(meter); }

bool is_on_beat(const Bar& bar, const Beats& position) { return place_in_bar(bar, position).within == Beats{}; }

std::string place_in_words(const Bar& bar, const Beats& position) {
  const PlaceInBar place = place_in_bar(bar, position);
  const std::string beat = std::to_string(place.beat + 1);
  if (place.within == Beats{}) return "beat " + beat;
  if (place.within == Beats(1, 2)) return "the and of " + beat;
  if (place.within == Beats(1, 3)) return "beat " + beat + ", second triplet";
  if (place.within == Beats(2, 3)) return "beat " + beat + ", third triplet";
  if (place.within == Beats(1, 4)) return "beat " + beat + ", second sixteenth";
  if (place.within == Beats(3, 4)) return "beat " + beat + ", last sixteenth";
  return to_string(place.within) + " of a beat after " + beat;
}

}  // namespace insideline
