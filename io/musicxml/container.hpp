// The compressed form of MusicXML: a zip archive that names its score in
// META-INF/container.xml. Source: MusicXML 4.0, "Compressed .mxl files".
#pragma once

#include "io/read_result.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

constexpr const char* container_name = "META-INF/container.xml";

struct ScoreInContainer {
  std::string bytes;
  std::string file_name;             ///< "solo.mxl(score.musicxml)"
  std::string entry_name;            ///< "score.musicxml"
  bool container_is_broken = false;  ///< it names no score that is there, or is missing
  std::vector<Warning> warnings;
};

bool is_zip(std::string_view bytes);

/// The score inside: the one the container names, or, where the container is missing or
/// broken, the first score in the archive, with a warning. Nothing is ever written to disk.
/// Throws ReadError for an archive that is damaged, encrypted, or unpacks beyond the limits.
ScoreInContainer unpack_score(std::string_view bytes, std::string_view file_name);

}  // namespace insideline::io
