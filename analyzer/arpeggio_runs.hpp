// The runs through one chord that could be reported.
// Runs may overlap: a ninth can be a member of one and the approach note of another.
#pragma once

#include "analyzer/arpeggios.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace insideline {

/// A chord that is played whatever sounds below, found by its tones.
struct PlayedChord {
  int root = 0;          ///< pitch class
  std::size_t kind = 0;  ///< row of the table of stacks
};

/// All indices of notes are into HeardLine::notes.
struct Run {
  std::vector<std::size_t> members;    ///< at least three different ones, in order
  std::vector<std::size_t> ornaments;  ///< between them
  bool complete = false;               ///< every tone of the chord is among the members
  std::size_t stretch = 0;             ///< the chord it is heard against
  std::optional<PlayedChord> played;   ///< where it is not that chord's own stack
  std::size_t borrowed = 0;            ///< members that are heard against another chord, or of a played one
  std::size_t colours = 0;             ///< members that are extensions of that chord's own stack
  bool may_share_first = false;        ///< its first note may end the run before: the line turns there, or the chord
};

inline std::size_t first_of(const Run& run) { return run.members.front(); }
inline std::size_t last_of(const Run& run) { return run.members.back(); }

/// Every run as long as it goes, plain and ornamented, those of another chord than the one below, and the shorter
/// pieces that remain of a run where another one takes some of its notes. `stacks` run parallel to the stretches.
std::vector<Run> candidate_runs(const HeardLine& line, std::span<const ScaleInThirds> scales,
                                std::span<const Stack> stacks, std::span<const NoteLabel> labels);

}  // namespace insideline
