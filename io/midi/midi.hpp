// Standard MIDI Files: from a notation program or from fingers to bars and beats.
#pragma once

#include "io/read_solo.hpp"

#include <string_view>

namespace insideline::io {

/// True for a MIDI file, bare or in a RIFF container.
bool is_midi(std::string_view bytes);

/// Throws ReadError. A file whose notes all lie on places that notation has names for passes unchanged; any other is
/// quantized, and its performed times stay in Solo::performed. Spellings are the key's until a harmony is known.
ReadResult parse_midi(std::string_view bytes, std::string_view file_name, const ReadOptions& options);

}  // namespace insideline::io
