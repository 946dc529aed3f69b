// A heap of tones and colours is no arpeggio where the line spells a whole chord of its own: Eb C before G B D G over
// F7 are two tones of F7, and then the triad of G. Common practice, no source.
#pragma once

#include "analyzer/arpeggio_runs.hpp"

#include <span>
#include <vector>

namespace insideline {

/// Takes out the runs through the chord below that leap to or from a colour past the stack of thirds, where a triad or
/// seventh chord with two such colours is played in full on some of their notes and on others beyond them. `stacks` run
/// parallel to the stretches.
void drop_heaps(std::vector<Run>& runs, const HeardLine& line, std::span<const Stack> stacks);

}  // namespace insideline
