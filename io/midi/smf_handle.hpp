// The only place that knows libsmf, which writes MIDI. It logs through a handler of the whole process and keeps no
// promise about threads, so one file is handled at a time.
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

/// The bytes of a format-1 file (format 0 for one track). Throws std::runtime_error where it cannot be made.
std::string save_smf(const OutgoingSmf& outgoing);

}  // namespace insideline::io
