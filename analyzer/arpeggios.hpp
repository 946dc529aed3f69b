// Arpeggio fragments: runs of at least three notes on different members of one
// chord's stack of thirds. Tones up to the seventh are always members; the ninth, eleventh
// and thirteenth, also where the symbol names them, only where the stack is continued, so
// that a scale is no arpeggio: an extension stands beside its neighbour in the stack, no
// other note steps to it, and it is not on its way elsewhere as a non-chord tone.
// Inversions are named by the lowest note, as four-note cells are in Hutchinson, Music
// Theory for the 21st-Century Classroom, 6.3; the bass of the symbol plays no part.
#pragma once

#include "analyzer/heard_line.hpp"
#include "analyzer/scales_in_thirds.hpp"

#include <array>
#include <optional>
#include <span>
#include <vector>

namespace insideline {

/// A note of a chord's stack of thirds.
struct Member {
  Degree degree;
  int place = 0;              ///< thirds above the root: 0, 1 ... 6
  std::optional<int> in_row;  ///< of a tone: its number among the chord's tones, from the root up
  bool extension = false;     ///< ninth or above
};

/// Steps up (or, negative, down) the stack. From tone to tone the chord's own tones are counted,
/// so that 9 and 13 are neighbours in a thirteenth chord without its eleventh; a tension
/// is a neighbour only a third away.
int steps_in_stack(const Member& from, const Member& to);

/// The members of a chord by pitch class: its tones, its tensions from the ninth up, the flat ninth of a dominant.
/// A sixth has the place of the seventh, as a tone of a sixth chord and as an extension of a triad; in a sus chord the
/// fourth or second has that of the third.
using Stack = std::array<std::optional<Member>, pitch_classes>;
Stack stack_of(const Chord& chord);

/// The fragments of a line, in order; two share a note only where one ends and the next begins. Of all such sets
/// this has the most notes on members; among equals most members of the chord below, then longer fragments, then fewer
/// ornaments, then more complete ones. Runs do not cross a phrase end or a rest of a beat. Between members there may be
/// notes labelled as approach, enclosure, appoggiatura, neighbour or passing tone: they are kept apart as ornaments.
/// Notes of `scales` belong to none.
std::vector<Arpeggio> find_arpeggios(const HeardLine& line, std::span<const ScaleInThirds> scales,
                                     const Harmony& harmony, std::span<const NoteLabel> labels);

}  // namespace insideline
