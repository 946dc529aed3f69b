// Brackets over runs of notes as <direction> elements: a beginning before the first note, an
// end behind the last one.
#pragma once

#include "io/musicxml/annotated_score.hpp"
#include "io/musicxml/encoding.hpp"
#include "io/musicxml/note_places.hpp"

#include <span>
#include <string_view>
#include <vector>

namespace insideline::io {

/// What to insert for `ink.brackets`, in the order of the page. Brackets that are the same on the page in
/// several passes are drawn once; where none of the numbers that a bracket may have is free, its text stands alone.
std::vector<Insertion> bracket_lines(std::string_view text, std::span<const NotePlace> notes, const ScoreInk& ink);

}  // namespace insideline::io
