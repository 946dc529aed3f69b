// A MIDI file as libsmf reads it: the second opinion on our own reader.
#pragma once

#include "io/midi/smf_events.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace insideline::tests {

struct SecondReading {
  io::SmfEvents events;
  std::vector<std::string> complaints;  ///< what libsmf says of the file; nothing about a clean one
};

/// `bytes` is a file of format 1 whose first track has no notes. Throws std::runtime_error where libsmf refuses it.
SecondReading read_by_libsmf(std::string_view bytes);

}  // namespace insideline::tests
