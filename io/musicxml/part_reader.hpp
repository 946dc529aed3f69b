// Reads the measures of one part into a WrittenPart.
#pragma once

#include "io/musicxml/notices.hpp"
#include "io/musicxml/score_parts.hpp"
#include "io/musicxml/written_part.hpp"

#include <optional>

namespace insideline::io {

struct PartContext {
  const ScoreDocument& document;
  bool concert_pitch = false;       ///< the score says it is written at concert pitch
  std::optional<Interval> assumed;  ///< transposition where the part states none
};

/// Throws ReadError for a length, pitch or chord symbol that cannot be read.
WrittenPart read_part(const PartSource& source, const PartContext& context, Notices& notices);

}  // namespace insideline::io
