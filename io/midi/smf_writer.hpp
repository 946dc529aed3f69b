// Events put into a Standard MIDI File. Source: Standard MIDI Files 1.0 (RP-001), "Header Chunks", "Track Chunks".
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace insideline::io {

struct OutgoingEvent {
  std::uint32_t ticks = 0;
  std::string bytes;  ///< one whole MIDI message or meta event, at most 127 bytes of text
};

struct OutgoingSmf {
  std::uint32_t ticks_per_quarter = 960;
  std::vector<std::vector<OutgoingEvent>> tracks;  ///< each in order of time; end-of-track is added
  std::uint32_t end_ticks = 0;                     ///< every track lasts at least this long
};

/// The bytes of a format-1 file (format 0 for one track).
std::string save_smf(const OutgoingSmf& outgoing);

}  // namespace insideline::io
