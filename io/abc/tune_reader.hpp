// Reads the lines of one tune into its voices.
// Source: the ABC music standard 2.1 (abcnotation), from memory: 3 (fields), 4 (the tune body), 7 (voices).
#pragma once

#include "io/abc/abc_text.hpp"
#include "io/musicxml/notices.hpp"
#include "io/musicxml/written_part.hpp"

#include <optional>
#include <string>
#include <vector>

namespace insideline::io {

struct WrittenTune {
  std::vector<WrittenPart> parts;
  std::vector<std::string> voices;  ///< what V: calls them; parallel to `parts`
  std::string order;                ///< of the parts named by P:, as the header gives it: "AABB"
  std::size_t order_offset_bytes = 0;
};

/// Throws ReadError for what is not ABC. Fields that say nothing of the notes are named in `notices`.
WrittenTune read_tune(const AbcText& source, const AbcTune& tune, Notices& notices);

}  // namespace insideline::io
