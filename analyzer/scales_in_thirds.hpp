// A scale in thirds: C E, D F, E G. It has the notes of many chords and is an arpeggio of none. Common practice, no
// source.
#pragma once

#include "analyzer/heard_line.hpp"

#include <cstddef>
#include <vector>

namespace insideline {

/// Three thirds or more, all up or all down, each a step from the last and all steps one way.
struct ScaleInThirds {
  std::size_t first = 0;     ///< index into HeardLine::notes
  std::size_t last = 0;      ///< included
  bool rises = false;        ///< from third to third
  bool of_no_scale = false;  ///< equal thirds, each a half step from the last: Bb G, A Gb, Ab F
};

/// In order; no two share a note. None runs across a phrase end or a rest of a beat.
std::vector<ScaleInThirds> find_scales_in_thirds(const HeardLine& line);

}  // namespace insideline
