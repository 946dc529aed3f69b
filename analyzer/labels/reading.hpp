// The states of the chain: the ways one note can be heard. A reading is possible
// only where its motion is really there (a passing tone steps on in its direction, an
// enclosure has both sides and its target); which of the possible ones is best is for
// the score table. Motions after the decision table of non-chord tones in Open Music
// Theory, Hutchinson's Music Theory for the 21st-Century Classroom and Butterfield's
// Integrated Musicianship: Theory.
#pragma once

#include "analyzer/labels/note_context.hpp"
#include "analyzer/pin.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace insideline {

/// Those from `passing` to `appoggiatura` lead to a note.
enum class Motive : std::uint8_t {
  chord_tone,
  tension,
  passing,
  neighbour,
  double_neighbour,
  enclosure,
  opening_enclosure,
  closing_enclosure,
  approach,
  double_approach,
  appoggiatura,
  escape,
  pedal,
  unexplained,
  no_chord
};
constexpr std::size_t motive_count = static_cast<std::size_t>(Motive::no_chord) + 1;

/// One state. Figures of several notes are paths: part 0 to parts - 1, then the target.
struct Reading {
  Motive motive = Motive::unexplained;
  Against against = Against::sounding;
  Placement placement = Placement::in_place;
  std::uint8_t part = 0;
  std::uint8_t parts = 1;
  Colour colour = Colour::listed;  ///< of a tension
  bool alone = false;              ///< a part that does without the others: a listener says so (pins.hpp)
  friend bool operator==(const Reading&, const Reading&) = default;
};

/// The chord `reading` hears the note against; none under N.C.
std::optional<std::size_t> governor(const Reading& reading, const NoteContext& context);

/// True for chord tones and tensions: a figure may come to rest on them.
constexpr bool is_stable(const Reading& reading) {
  return reading.motive == Motive::chord_tone || reading.motive == Motive::tension ||
         reading.motive == Motive::no_chord;
}

/// True for figures that start from a note that stands by itself.
constexpr bool needs_start(const Reading& reading) {
  return reading.motive == Motive::passing || reading.motive == Motive::neighbour ||
         reading.motive == Motive::double_neighbour || reading.motive == Motive::escape;
}

/// True for figures that lead to a note.
constexpr bool needs_target(const Reading& reading) {
  return reading.motive >= Motive::passing && reading.motive <= Motive::appoggiatura;
}

/// What a user sees of a motive: some are parts of one figure.
constexpr Motive label_motive(Motive motive) {
  if (motive == Motive::opening_enclosure || motive == Motive::closing_enclosure) return Motive::enclosure;
  return motive == Motive::double_approach ? Motive::approach : motive;
}

/// Adds every way note `index` of `chain` can be heard to `found`, at least one, in a fixed order that also decides
/// between readings of the same score. A pitch of the sounding chord is a chord tone first; inside a run it may be
/// on its way as well.
void add_possible_readings(std::vector<Reading>& found, const Chain& chain, std::size_t index, Hearing hearing);

/// True where `to` may be the reading of the note right after one read as `from`. Whether a figure starts from and
/// leads to a note that stands by itself is for the score table.
bool may_follow(const Reading& from, const Reading& to, bool same_pitch);

/// How many notes ahead the note that this reading leads to is; none for one that leads nowhere.
std::optional<std::size_t> notes_to_target(const Reading& reading);

constexpr Role role_of(const Reading& reading) {
  switch (reading.motive) {
    case Motive::chord_tone: return Role::chord_tone;
    case Motive::tension: return Role::tension;
    case Motive::unexplained: return Role::outside;
    case Motive::no_chord: return Role::no_chord;
    case Motive::passing:
    case Motive::neighbour:
    case Motive::double_neighbour:
    case Motive::enclosure:
    case Motive::opening_enclosure:
    case Motive::closing_enclosure:
    case Motive::approach:
    case Motive::double_approach:
    case Motive::appoggiatura:
    case Motive::escape:
    case Motive::pedal: return Role::non_chord_tone;
  }
  return Role::outside;
}

}  // namespace insideline
