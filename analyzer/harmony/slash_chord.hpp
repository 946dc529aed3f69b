// What a chord over a bass that it does not have is heard as. Players write Ab/Bb or Fm7/Bb and mean B flat ninth with
// the fourth in place of the third; common practice, no source.
#pragma once

#include "analyzer/model/chord.hpp"

#include <optional>
#include <string>

namespace insideline {

/// "Bb9sus4" of Ab/Bb, "G7sus4b9" of Fm/G; none where the bass is a tone of the chord, or has a third above it, or
/// neither fourth nor flat seventh.
std::optional<std::string> suspended_over_bass(const Chord& chord);

}  // namespace insideline
