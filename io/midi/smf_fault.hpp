// What can be wrong with a Standard MIDI File, and how much it matters.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>

namespace insideline::io {

enum class SmfFault : std::uint8_t {
  not_smf,
  too_short,
  bad_header_length,
  bad_format,
  format_2,
  smpte_division,
  zero_division,
  no_tracks,
  too_many_tracks,
  too_many_events,
  too_many_tempos,
  file_too_large,
  vlq_too_long,
  vlq_truncated,
  event_truncated,
  no_running_status,
  data_byte_high,
  bad_status,
  system_common,
  time_overflow,
  chunk_garbage,
  running_after_meta,
  missing_end_of_track,
  bytes_after_end,
  chunk_overrun,
  unknown_chunk,
  track_count,
  bad_tempo,
  bad_time_signature,
  bad_key_signature,
  realtime_byte
};

enum class Severity : std::uint8_t {
  unusable,    ///< nothing can be read
  loses_data,  ///< refused, unless the file is to be salvaged
  harmless     ///< common in the wild; nothing that sounds is lost
};

Severity severity(SmfFault fault);

enum class Damage : std::uint8_t {
  refused,  ///< a file that would lose notes is an error
  salvaged  ///< what can be read is kept, with a finding for each thing dropped
};

/// Faults of one kind that are harmless are counted together, at the place of the first.
struct SmfFinding {
  SmfFault fault = SmfFault::not_smf;
  std::size_t offset_bytes = 0;
  std::size_t count = 1;
  friend bool operator==(const SmfFinding&, const SmfFinding&) = default;
};

/// "byte 22: a time value has more than four bytes", with what to do where the file cannot be used.
std::string to_string(const SmfFinding& finding);

}  // namespace insideline::io
