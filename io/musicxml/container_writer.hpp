// Packs a score into the compressed form of MusicXML. Source: MusicXML 4.0, "Compressed .mxl files".
#pragma once

#include <string>
#include <string_view>

namespace insideline::io {

/// An archive with `score` in it. Where `original` is one itself, its score is replaced and
/// everything else in it kept; otherwise a new one. The same input gives the same bytes.
/// Throws ReadError where `original` is an archive that cannot be read; `file_name` is for messages.
std::string packed_score(std::string_view score, std::string_view original, std::string_view file_name);

}  // namespace insideline::io
