// Short forms for tests about chords: "Cm7" -> Chord, degrees <-> "1 b3 5 b7".
#pragma once

#include "analyzer/model/chord.hpp"

#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::tests {

/// The chord of a readable symbol; throws std::invalid_argument with the reader's message otherwise.
Chord chord_from(std::string_view symbol);

/// "1 b3 5 b7".
std::string spelled(std::span<const Degree> degrees);
/// The degrees of "1 b3 5 b7"; throws std::invalid_argument for anything else.
std::vector<Degree> degrees_from(std::string_view text);
/// "C Eb G Bb".
std::string note_names(const Chord& chord, std::span<const Degree> degrees);
/// The pitch classes of the tones, ascending: "0 3 7 10".
std::string pitch_classes(const Chord& chord);

/// The lines of a table: fields between tabs; lines that begin with "# " left out.
std::vector<std::vector<std::string>> table_rows(const std::string& file_name);

}  // namespace insideline::tests
