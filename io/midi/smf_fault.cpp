#include "io/midi/smf_fault.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <string_view>

namespace insideline::io {
namespace {

struct FaultRow {
  SmfFault fault;
  Severity severity;
  std::string_view message;
};

constexpr auto unusable = Severity::unusable;
constexpr auto loses_data = Severity::loses_data;
constexpr auto harmless = Severity::harmless;

// One row for each fault, in the order of the enum. Rules: Standard MIDI Files 1.0 (RP-001).
constexpr std::array fault_table = {
    FaultRow{SmfFault::not_smf, unusable, "this is not a MIDI file: it does not begin with MThd"},
    FaultRow{SmfFault::too_short, unusable, "the file ends inside its header; export or copy it again"},
    FaultRow{SmfFault::bad_header_length, unusable, "the header has an impossible length; export the file again"},
    FaultRow{SmfFault::bad_format, unusable,
             "the file says it has a format that does not exist; formats 0 and 1 are read"},
    FaultRow{SmfFault::format_2, unusable,
             "format 2 holds independent patterns, not one piece; export it as format 0 or 1"},
    FaultRow{SmfFault::smpte_division, unusable,
             "the file counts film frames (SMPTE) instead of beats, so nothing says where its bars are; export it with "
             "ticks per quarter note, or give the beats with --beats FILE"},
    FaultRow{SmfFault::zero_division, unusable, "a quarter note has zero ticks; export the file again"},
    FaultRow{SmfFault::no_tracks, unusable, "the file has no track that can be read"},
    FaultRow{SmfFault::too_many_tracks, unusable, "the file has more than 4096 tracks; is it the right file?"},
    FaultRow{SmfFault::too_many_events, unusable, "the file has more than 1,000,000 events; is it the right file?"},
    FaultRow{SmfFault::too_many_tempos, unusable,
             "the file changes tempo or meter too often to be read; thin out its tempo track"},
    FaultRow{SmfFault::file_too_large, unusable, "the file has more than 16 MiB; is it the right file?"},
    FaultRow{SmfFault::vlq_too_long, loses_data, "a time or length has more than four bytes"},
    FaultRow{SmfFault::vlq_truncated, loses_data, "the track ends inside a time or length"},
    FaultRow{SmfFault::event_truncated, loses_data, "the track ends inside an event"},
    FaultRow{SmfFault::no_running_status, loses_data, "an event does not say what it is"},
    FaultRow{SmfFault::data_byte_high, loses_data, "a note or controller has a value above 127"},
    FaultRow{SmfFault::bad_status, loses_data, "an event of an undefined kind"},
    FaultRow{SmfFault::system_common, loses_data, "a message for a cable (F1, F2, F3 or F6) stands inside a track"},
    FaultRow{SmfFault::time_overflow, loses_data, "the track runs on past the longest time a MIDI file can tell"},
    FaultRow{SmfFault::chunk_garbage, loses_data, "bytes that belong to no track"},
    FaultRow{SmfFault::running_after_meta, harmless, "an event leaves out its kind after a text or a tempo"},
    FaultRow{SmfFault::missing_end_of_track, harmless,
             "a track is not closed; where the file was cut short, the notes behind this place are lost"},
    FaultRow{SmfFault::bytes_after_end, harmless, "bytes after the end of a track were left out"},
    FaultRow{SmfFault::chunk_overrun, harmless, "a track says it is longer than the file"},
    FaultRow{SmfFault::unknown_chunk, harmless, "a chunk of another kind than a track was left out"},
    FaultRow{SmfFault::track_count, harmless, "the header counts other tracks than the file has"},
    FaultRow{SmfFault::bad_tempo, harmless, "a tempo that cannot be read was left out"},
    FaultRow{SmfFault::bad_time_signature, harmless, "a time signature that cannot be read was left out"},
    FaultRow{SmfFault::bad_key_signature, harmless, "a key signature that cannot be read was left out"},
    FaultRow{SmfFault::realtime_byte, harmless, "a clock byte inside a track was left out"},
};

constexpr bool in_order() {
  for (std::size_t i = 0; i < fault_table.size(); ++i)
    if (static_cast<std::size_t>(fault_table.at(i).fault) != i) return false;
  return true;
}
static_assert(in_order() && fault_table.size() == static_cast<std::size_t>(SmfFault::realtime_byte) + 1);

const FaultRow& row(SmfFault fault) { return fault_table.at(static_cast<std::size_t>(fault)); }

}  // namespace

Severity severity(SmfFault fault) { return row(fault).severity; }

std::string to_string(const SmfFinding& finding) {
  const std::string times = finding.count > 1 ? fmt::format(" ({} times)", finding.count) : "";
  return fmt::format("byte {}: {}{}", finding.offset_bytes, row(finding.fault).message, times);
}

}  // namespace insideline::io
