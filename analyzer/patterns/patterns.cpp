#include "analyzer/patterns/patterns.hpp"

#include "analyzer/patterns/blues.hpp"
#include "analyzer/patterns/digital_patterns.hpp"
#include "analyzer/patterns/riffs.hpp"
#include "analyzer/patterns/sequences.hpp"

namespace insideline {

Patterns find_patterns(const HeardLine& line, std::span<const ScaleInThirds> scales, const Solo& solo,
                       const Harmony& harmony) {
  Patterns patterns;
  const LineMoves moves = moves_of(line);
  patterns.digital = find_digital_patterns(line, moves, harmony);
  patterns.sequences = find_sequences(line, moves, scales);
  patterns.riffs = find_riffs(line, moves, solo, patterns.sequences);
  patterns.pentatonic_runs = find_pentatonic_runs(line, solo, harmony);
  patterns.added_half_steps = find_added_half_steps(line, harmony);
  return patterns;
}

}  // namespace insideline
