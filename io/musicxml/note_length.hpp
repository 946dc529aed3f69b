// How long a note is by what is printed: its head, its dots and its tuplet.
#pragma once

#include "analyzer/model/beats.hpp"

#include <pugixml.hpp>

#include <optional>

namespace insideline::io {

/// In quarter notes; none where the type or the tuplet cannot be read. `time_modification`
/// may be empty. Nested tuplets need nothing more: their ratio is written multiplied out.
std::optional<Beats> printed_length(const pugi::xml_node& type, int dots, const pugi::xml_node& time_modification);

/// `printed` where `length` is within a division of it, which is how rounding shows, else `length`:
/// three triplet eighths in 256 divisions are 85 + 85 + 85, a quarter less a crumb.
Beats unrounded(const Beats& length, const Beats& printed, const Beats& divisions);

/// The divisions of a quarter note where no <divisions> states them: by the first note at or after `from`, in its
/// measure or a later one of the part, that has both a length and a note value. None without such a note.
std::optional<Beats> divisions_from_print(pugi::xml_node from);

}  // namespace insideline::io
