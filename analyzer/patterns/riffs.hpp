// Riffs: a figure that is played again and again at short distance, moved or fitted to the chords. "Riff" as in common
// practice; how often and how near is our own choice.
#pragma once

#include "analyzer/heard_line.hpp"
#include "analyzer/patterns/moves.hpp"

#include <span>
#include <vector>

namespace insideline {

/// A riff has the same steps (see scale_steps) and the same rhythm each time, no rest of a beat inside, and comes three
/// times or more, each time at most four bars after the last. It has four notes or more, three where it comes four
/// times. Even notes are one where they stand between two breaths each time, or where they are six or more from the
/// same beat; a scale or one note repeated is none. Notes of `sequences` are left out. What fills most notes comes
/// first; no two share a note.
std::vector<Riff> find_riffs(const HeardLine& line, const LineMoves& moves, const Solo& solo,
                             std::span<const Sequence> sequences);

/// Parallel to Solo::notes: the notes of `riffs`.
std::vector<bool> riff_notes(std::span<const Riff> riffs, std::size_t notes);

}  // namespace insideline
