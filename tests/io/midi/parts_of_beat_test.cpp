#include "io/midi/parts_of_beat.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <vector>

using insideline::io::BeatKind;
using insideline::io::Part;
using insideline::io::parts_of;
using insideline::io::PartsOfBeat;
using insideline::io::PlaceInBeat;
using insideline::io::Subdivision;
using insideline::io::subdivisions;

namespace {

constexpr double swing_place = 0.62;

const PlaceInBeat& first_place_from(const PartsOfBeat& beat, float from) { return beat.places_from(from).front(); }

}  // namespace

TEST_CASE("every subdivision begins on the beat, and all of them share that place") {
  const std::vector<Subdivision> figures = subdivisions();
  const PartsOfBeat beat = parts_of(BeatKind::simple, figures, swing_place);
  const auto simple = std::ranges::count(figures, BeatKind::simple, &Subdivision::kind);
  const PlaceInBeat& on_the_beat = beat.places.front();
  CHECK(static_cast<std::ptrdiff_t>(on_the_beat.end - on_the_beat.first) == simple);
  CHECK(std::ranges::all_of(beat.parts.begin(), beat.parts.begin() + simple,
                            [](const Part& part) { return part.part == 0 && part.sounds <= 0.0F; }));
}

TEST_CASE("the second third and the third sixth of a beat are one place, a swung eighth beside them is another") {
  const PartsOfBeat beat = parts_of(BeatKind::simple, subdivisions(), 2.0 / 3.0);
  std::size_t swings = 0;
  std::size_t even = 0;
  for (const PlaceInBeat& place : beat.places) {
    if (place.sounds < 0.66F || place.sounds > 0.67F) continue;
    (place.swings ? swings : even) += place.end - place.first;
  }
  CHECK(swings == 2);  // of eighths and of swung sixteenths
  CHECK(even == 3);    // two triplets and the sextuplet
}

TEST_CASE("places are found from any moment of the beat on") {
  const PartsOfBeat beat = parts_of(BeatKind::compound, subdivisions(), swing_place);
  CHECK(first_place_from(beat, -0.2F).first == 0);
  for (const float from : {0.01F, 0.1F, 0.25F, 0.3F, 0.5F, 0.7F, 0.9F}) {
    const auto first = std::ranges::lower_bound(beat.places, from, {}, &PlaceInBeat::sounds);
    CHECK(&first_place_from(beat, from) == &*first);
  }
  CHECK(beat.places_from(1.0F).empty());
}

TEST_CASE("what lets a second triplet over two beats gain is the last note of a triplet, not of sixteenths") {
  const PartsOfBeat beat = parts_of(BeatKind::simple, subdivisions(), swing_place);
  const std::vector<Subdivision> figures = subdivisions();
  std::vector<int> parts;
  for (const Part& part : beat.parts)
    if (part.lets_gain) parts.push_back(figures[part.figure].parts * 10 + part.part);
  CHECK(parts == std::vector<int>{32});
}
