// One track of a Standard MIDI File, event by event, into the clean form that smf_check.hpp promises.
#pragma once

#include "io/midi/smf_bytes.hpp"
#include "io/midi/smf_check.hpp"

#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace insideline::io {

/// A tempo or a time signature, on its way to the first track.
struct ConductorEvent {
  std::uint32_t ticks = 0;
  std::string bytes;  ///< FF 51 03 ... or FF 58 04 ...
};

/// What is gathered across tracks.
struct SmfHarvest {
  std::vector<ConductorEvent> conductor;
  std::vector<SmfText> texts;
  std::vector<SmfFinding> findings;
  std::size_t note_count = 0;
  std::size_t event_count = 0;

  /// Harmless faults of one kind become one finding, and so do others once there are very many.
  void note(SmfFault fault, std::size_t offset_bytes);
};

struct CleanTrack {
  std::string events;
  std::uint32_t last_ticks = 0;  ///< of the last event in `events`
  std::uint32_t end_ticks = 0;   ///< where the source's track ends
};

/// Reads events up to the end of the track, of `cursor`, or the first fault that loses data, which is returned.
std::optional<SmfFinding> read_smf_track(SmfCursor& cursor, int track_number, CleanTrack& track, SmfHarvest& harvest);

}  // namespace insideline::io
