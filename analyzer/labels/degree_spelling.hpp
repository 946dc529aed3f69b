// The name of a note over its chord: #11 or b5, #9 or b3.
#pragma once

#include "analyzer/heard_line.hpp"
#include "analyzer/model/changes.hpp"
#include "analyzer/model/chord.hpp"
#include "analyzer/model/solo.hpp"

#include <array>
#include <cstddef>
#include <vector>

namespace insideline {

/// The degree of `note` over `chord`. A tone or tension takes its name from the chord. Any other
/// note keeps the file's spelling where it makes a degree that players use; else it is named by
/// where it goes: `rising` raises the note below (#11), falling lowers the one above (b5).
Degree degree_over(const Chord& chord, const Note& note, bool rising);

/// The same for a pitch class (0..11) that colours `chord`: over a dominant the minor third is its #9
/// and the flat fifth its #11, however they are written.
Degree tension_over(const Chord& chord, int pitch_class);

/// `tension_over` for all chords of a solo, worked out once for each that is different.
class MemberDegrees {
 public:
  explicit MemberDegrees(const Harmony& harmony);

  [[nodiscard]] const Degree& over(std::size_t chord, int pitch_class) const {
    return degrees_[alike_[chord]][static_cast<std::size_t>(pitch_class)];
  }

 private:
  std::vector<std::size_t> alike_;
  std::vector<std::array<Degree, pitch_classes>> degrees_;  // by chord, where it is the first of its like
};

}  // namespace insideline
