// How the line connects the chords at a change. A chord written again is no change, and
// N.C. between two chords is none either. Guide tones are the third and seventh; the
// fourth of a sus chord stands for the third, the sixth of a sixth chord for the seventh
// (Hutchinson, Music Theory for the 21st-Century Classroom, 31.7). Led home, they stay or fall a step; only a minor
// third may rise, to a major seventh.
#pragma once

#include "analyzer/heard_line.hpp"

#include <optional>
#include <span>
#include <vector>

namespace insideline {

/// The tones of a chord that lie closest to a note.
struct NearestTones {
  std::optional<Pitch> up;    ///< strictly above; none for a chord without tones
  std::optional<Pitch> down;  ///< strictly below
  bool common = false;        ///< the note itself is a tone of the chord
};
NearestTones nearest_tones(int midi, const Chord& chord);

/// One a change, in order: from the last note heard against the old chord to the first
/// heard against the new. Where a rest of `settings.phrase_gap` or more lies between them,
/// or one of them is missing, nothing connects: kind `none`, without a motion. A tone
/// sounded again is taken as nearest; so is the nearer of the two beside it, or either
/// where they are equally near. A guide tone is led home `late` where it arrives by way of other notes, five at most
/// and not later than two beats into the new chord: notes around it, or, within the first beat, tones of that chord.
std::vector<Connection> find_connections(const HeardLine& line, const Solo& solo, const Harmony& harmony,
                                         std::span<const NoteLabel> labels, const Settings& settings = {});

}  // namespace insideline
