// How long each played measure is. Notation programs split bars at repeats and begin with
// pickups; broken exports hold too little or too much. The first is kept, the second repaired.
#pragma once

#include "io/musicxml/notices.hpp"
#include "io/musicxml/written_part.hpp"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace insideline::io {

enum class BarShape : std::uint8_t {
  whole,
  pickup,      ///< the first measure, shorter than its meter
  first_half,  ///< makes one bar together with the measure played next
  second_half,
};

struct PlayedMeasure {
  std::size_t written = 0;  ///< index into WrittenPart::measures
  Beats onset;              ///< from the start of the first full bar
  Beats length;             ///< > 0
  Meter meter;
  BarShape shape = BarShape::whole;
};

/// A short measure is filled up to its meter, unless it is a pickup, is marked implicit, or makes
/// a whole bar with its neighbour or the pickup. A long one makes its bar longer: no note is lost.
std::vector<PlayedMeasure> lay_out_measures(const WrittenPart& part, std::span<const std::size_t> order,
                                            Notices& notices);

}  // namespace insideline::io
