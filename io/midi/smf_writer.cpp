#include "io/midi/smf_writer.hpp"

#include "io/midi/smf_bytes.hpp"

#include <algorithm>
#include <cassert>
#include <string_view>

namespace insideline::io {
namespace {

void append_chunk(std::string& file, std::string_view kind, std::string_view bytes) {
  file += kind;
  append_u32(file, static_cast<std::uint32_t>(bytes.size()));
  file += bytes;
}

std::string track_bytes(const std::vector<OutgoingEvent>& events, std::uint32_t end_ticks) {
  constexpr std::string_view end_of_track{"\xFF\x2F\x00", 3};
  std::string bytes;
  std::uint32_t last = 0;
  for (const OutgoingEvent& event : events) {
    assert(event.ticks >= last && "events are written in order of time");
    append_vlq(bytes, event.ticks - last);
    bytes += event.bytes;
    last = event.ticks;
  }
  append_vlq(bytes, std::max(last, end_ticks) - last);
  bytes += end_of_track;
  return bytes;
}

}  // namespace

std::string save_smf(const OutgoingSmf& outgoing) {
  std::string header;
  append_u16(header, outgoing.tracks.size() > 1 ? 1 : 0);
  append_u16(header, static_cast<std::uint32_t>(outgoing.tracks.size()));
  append_u16(header, outgoing.ticks_per_quarter);
  std::string file;
  append_chunk(file, "MThd", header);
  for (const auto& events : outgoing.tracks) append_chunk(file, "MTrk", track_bytes(events, outgoing.end_ticks));
  return file;
}

}  // namespace insideline::io
