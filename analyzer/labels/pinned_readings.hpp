// How one note can be heard so that its pin holds: the two halves of pins.cpp.
#pragma once

#include "analyzer/labels/reading.hpp"
#include "analyzer/pin.hpp"

#include <optional>
#include <span>
#include <string>
#include <vector>

namespace insideline {

/// The readings that agree with a pin, or why there are none.
struct ReadingsUnderPin {
  std::vector<Reading> readings;
  std::string why_none;
};

/// A note of a chain with what the program weighs for it.
struct PinnedPlace {
  const Solo& solo;
  const Harmony& harmony;
  const Chain& chain;
  std::size_t index = 0;
  std::span<const Reading> weighed;

  [[nodiscard]] const NoteContext& here() const { return chain[index]; }
  [[nodiscard]] const Note& note() const { return solo.notes[here().note]; }
  [[nodiscard]] const Chord& chord(std::size_t number) const { return harmony.chords[number].chord; }
};

/// True for the figures that are places in the chord.
bool is_member_figure(Figure figure);

/// True where `note` over `chord` has the pitch of `degree`.
bool degree_fits(const Degree& degree, const Chord& chord, const Note& note);
/// "Bb is not 3 of G7".
std::string not_the_degree(const PinnedPlace& place, const Degree& degree);

/// A tone of a chord or a tension.
ReadingsUnderPin member_readings(const PinnedPlace& place, const Pin& pin);

/// A non-chord tone: the figure of the pin, or any where it names none.
ReadingsUnderPin figure_readings(const PinnedPlace& place, const Pin& pin);

/// Adds each part that the note can have in a figure of several notes, whatever the others are heard as.
void add_lone_parts(std::vector<Reading>& readings, const Chain& chain, std::size_t index, Motive motive);

}  // namespace insideline
