// The only place that knows libsmf. It loads clean files (smf_check.hpp) into plain values, and
// writes MIDI. libsmf logs through a handler of the whole process and keeps no promise about
// threads, so one file is handled at a time.
#pragma once

#include "analyzer/model/changes.hpp"

#include <cstdint>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

/// A message to one of the sixteen channels.
struct ChannelEvent {
  std::uint32_t ticks = 0;
  std::uint8_t status = 0;  ///< 0x80..0xEF: kind and channel
  std::uint8_t first = 0;   ///< 0..127
  std::uint8_t second = 0;  ///< 0..127; 0 where the kind has one data byte
};

struct TempoMark {
  std::uint32_t ticks = 0;
  std::uint32_t quarter_microseconds = 500'000;  ///< > 0
};

struct MeterMark {
  std::uint32_t ticks = 0;
  Meter meter;
};

struct KeyMark {
  std::uint32_t ticks = 0;
  Key key;
};

struct LoadedTrack {
  std::vector<ChannelEvent> events;  ///< in order of time
};

struct LoadedSmf {
  std::uint32_t ticks_per_quarter = 0;
  std::uint32_t end_ticks = 0;
  std::vector<TempoMark> tempos;              ///< as the file has them, in order of time; perhaps none
  std::vector<MeterMark> meters;              ///< likewise
  std::vector<KeyMark> keys;                  ///< of all tracks, in order of time
  std::vector<LoadedTrack> tracks;            ///< without the conductor track
  std::vector<std::string> library_messages;  ///< none for a clean file; otherwise the check has a gap
};

/// `clean` is CheckedSmf::clean. Throws std::runtime_error where libsmf refuses it all the same.
LoadedSmf load_smf(std::string_view clean);

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
