// Where the symbols of given changes go in a score that has none: over the note or rest in which each chord begins.
#pragma once

#include "io/musicxml/annotated_score.hpp"
#include "io/musicxml/document.hpp"
#include "io/musicxml/encoding.hpp"

#include <vector>

namespace insideline::io {

/// One <harmony> for each chord of `ink`, in the part of its notes. A bar that is played several times gets the chords
/// of its first time; a bar of whose place on the page nothing is known gets none. Nothing where the part has symbols
/// of its own.
std::vector<Insertion> chord_symbols(const ScoreDocument& document, const ScoreInk& ink);

}  // namespace insideline::io
