// One sign of a line of music at a time, handed to the voice that it belongs to.
// Source: the ABC music standard 2.1 (abcnotation), from memory: section 4, and 6.1 for what may be passed over.
#pragma once

#include "io/abc/abc_signs.hpp"
#include "io/abc/voice_writer.hpp"
#include "io/musicxml/notices.hpp"

namespace insideline::io {

/// Reads the sign at the cursor and moves past it. Throws ReadError for what has no meaning in ABC.
void read_music_sign(AbcCursor& cursor, VoiceWriter& voice, Notices& notices);

}  // namespace insideline::io
