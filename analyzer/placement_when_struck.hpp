// Early and late as a player sees it on the page: at the moment in which the note is struck.
#pragma once

#include "analyzer/analysis.hpp"

namespace insideline {

/// Whether the note, when it is struck, is heard against another chord than the one that sounds. A tone struck over its
/// own chord and kept over the change is in place until then; so is a pickup, which leads to the first chord and has no
/// other that it could be ahead of.
Placement placement_when_struck(const NoteLabel& label);

}  // namespace insideline
