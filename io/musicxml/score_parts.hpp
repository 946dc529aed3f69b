// Finds the parts of a score and their measures, whichever way round the file holds them.
#pragma once

#include "io/musicxml/document.hpp"

#include <pugixml.hpp>

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace insideline::io {

/// One measure of one part: what the two forms of a score have in common.
struct MeasureSource {
  pugi::xml_node measure;  ///< carries number and implicit
  pugi::xml_node content;  ///< carries the notes; the same node in a partwise score
  /// Running number of its first <note> in the document; none where it goes on from the measure before.
  std::optional<std::size_t> first_note;
};

struct PartSource {
  std::string id;
  std::string name;  ///< as printed; "part 2" where the score gives none
  std::vector<MeasureSource> measures;
};

struct ScoreParts {
  std::string title;
  bool concert_pitch = false;  ///< <concert-score>: written at sounding pitch, octaves apart
  std::vector<PartSource> parts;
};

/// Throws ReadError where there is no part with a measure.
ScoreParts find_parts(const ScoreDocument& document);

}  // namespace insideline::io
