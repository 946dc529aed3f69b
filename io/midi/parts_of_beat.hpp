// Where notes may stand in a beat: the parts of all subdivisions, those that sound at one place together, so that how
// far a note is from them is found out once.
#pragma once

#include "io/midi/subdivisions.hpp"

#include <array>
#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace insideline::io {

/// In beats: what is written further than this from where it was played must be well explained.
constexpr float well_explained = 1.0F / 6.0F;

constexpr std::size_t most_subdivisions = 16;

/// One part of one subdivision.
struct Part {
  float sounds = 0.0F;    ///< after the beat, in beats, with this player's swing
  float enter = 0.0F;     ///< cost of a figure that begins here
  float leave = 0.0F;     ///< and of one that ends here
  float at_least = 0.0F;  ///< what choosing the figure costs, however the notes around it lie
  std::uint8_t figure = 0;
  std::uint8_t part = 0;
  bool swings = false;
  bool lets_gain = false;  ///< the last part of as many as a figure has that gains after it (subdivisions.hpp)
};

/// Where parts of one or several subdivisions sound: a note is as far from all of them.
struct PlaceInBeat {
  float sounds = 0.0F;
  float written = 0.0F;   ///< as the page has it
  float free_way = 0.0F;  ///< so far, in beats, may a note have been played from where the page has it at no cost
  float at_least = 0.0F;  ///< of its cheapest part
  bool swings = false;
  std::size_t first = 0;  ///< its parts are PartsOfBeat::parts [first, end)
  std::size_t end = 0;
};

/// All parts of all subdivisions of one kind of beat, in order of time.
struct PartsOfBeat {
  std::vector<Part> parts;
  std::vector<PlaceInBeat> places;
  std::array<std::uint8_t, 17> first_place{};  ///< for each sixteenth of the beat, the first place at or after it

  /// Those that sound at `from`, in beats, or later.
  [[nodiscard]] std::span<const PlaceInBeat> places_from(float from) const;
};

/// `off_beat` is where in a simple beat the second eighth sounds.
PartsOfBeat parts_of(BeatKind kind, std::span<const Subdivision> figures, double off_beat);

/// Where part `part` sounds, in parts of its beat.
double position_in_beat(const Subdivision& subdivision, std::size_t part, double off_beat);

}  // namespace insideline::io
