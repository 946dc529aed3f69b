// One note at a time: what is left of a voice once chords are reduced to their top note.
#pragma once

#include "io/musicxml/notices.hpp"
#include "io/musicxml/written_part.hpp"

#include <cstddef>
#include <vector>

namespace insideline::io {

struct MelodicLine {
  std::vector<WrittenNote> notes;       ///< in order; no two sound at once
  std::vector<std::size_t> first_note;  ///< of each measure, and one more for the end
};

/// The line of voice `voice`, measure by measure; the notes are taken out of `part`. What is left out is counted in
/// `notices`.
MelodicLine melodic_line(WrittenPart& part, std::size_t voice, Notices& notices);

}  // namespace insideline::io
