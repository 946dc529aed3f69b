// The events of a clean MIDI file (smf_check.hpp) as plain values. The check has proved each byte of it, so nothing can
// be missing, cut off or out of range here.
#pragma once

#include "analyzer/model/changes.hpp"

#include <cstdint>
#include <string_view>
#include <vector>

namespace insideline::io {

/// A message to one of the sixteen channels.
struct ChannelEvent {
  std::uint32_t ticks = 0;
  std::uint8_t status = 0;  ///< 0x80..0xEF: kind and channel
  std::uint8_t first = 0;   ///< 0..127
  std::uint8_t second = 0;  ///< 0..127; 0 where the kind has one data byte
  friend bool operator==(const ChannelEvent&, const ChannelEvent&) = default;
};

struct TempoMark {
  std::uint32_t ticks = 0;
  std::uint32_t quarter_microseconds = 500'000;  ///< > 0
  friend bool operator==(const TempoMark&, const TempoMark&) = default;
};

struct MeterMark {
  std::uint32_t ticks = 0;
  Meter meter;
  friend bool operator==(const MeterMark&, const MeterMark&) = default;
};

struct KeyMark {
  std::uint32_t ticks = 0;
  Key key;
  friend bool operator==(const KeyMark&, const KeyMark&) = default;
};

using TrackEvents = std::vector<ChannelEvent>;  ///< in order of time

struct SmfEvents {
  std::uint32_t ticks_per_quarter = 0;
  std::uint32_t end_ticks = 0;
  std::vector<TempoMark> tempos;    ///< as the file has them, in order of time; perhaps none
  std::vector<MeterMark> meters;    ///< likewise
  std::vector<KeyMark> keys;        ///< of all tracks, in order of time
  std::vector<TrackEvents> tracks;  ///< without the conductor track
  friend bool operator==(const SmfEvents&, const SmfEvents&) = default;
};

/// `clean` is CheckedSmf::clean.
SmfEvents events_of(std::string_view clean);

}  // namespace insideline::io
