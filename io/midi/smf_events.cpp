#include "io/midi/smf_events.hpp"

#include "io/midi/smf_bytes.hpp"

#include <algorithm>
#include <cassert>
#include <cstddef>

namespace insideline::io {
namespace {

constexpr std::size_t clean_header_bytes = 14;
constexpr std::size_t division_offset = 12;
constexpr std::size_t clean_chunk_header_bytes = 8;

/// Reads forward through bytes that are known to be there.
class CleanBytes {
 public:
  explicit CleanBytes(std::string_view bytes) : bytes_(bytes) {}

  [[nodiscard]] bool at_end() const { return position_ == bytes_.size(); }
  std::uint8_t byte() {
    assert(!at_end() && "the check has written whole events");
    return static_cast<std::uint8_t>(bytes_[position_++]);
  }
  std::uint32_t vlq() {
    std::uint32_t next = byte();
    std::uint32_t value = next & 0x7FU;
    while ((next & 0x80U) != 0) {
      next = byte();
      value = (value << 7U) | (next & 0x7FU);
    }
    return value;
  }
  std::string_view take(std::size_t count) {
    const std::string_view taken = bytes_.substr(position_, count);
    position_ += taken.size();
    return taken;
  }

 private:
  std::string_view bytes_;
  std::size_t position_ = 0;
};

void add_meta(std::uint32_t ticks, std::uint8_t kind, std::string_view data, SmfEvents& events) {
  const auto value = [&](std::size_t index) { return static_cast<std::uint8_t>(data[index]); };
  if (kind == 0x51)
    events.tempos.push_back({ticks, (std::uint32_t{value(0)} << 16U) | (std::uint32_t{value(1)} << 8U) | value(2)});
  if (kind == 0x58) events.meters.push_back({ticks, {.beats = value(0), .unit = 1 << value(1)}});
  if (kind == 0x59)
    events.keys.push_back({ticks, {.fifths = static_cast<std::int8_t>(value(0)), .minor = value(1) == 1}});
}

TrackEvents track_events(std::string_view chunk, SmfEvents& events) {
  constexpr std::size_t usual_event_bytes = 4;
  TrackEvents track;
  track.reserve(chunk.size() / usual_event_bytes);
  CleanBytes bytes(chunk);
  std::uint32_t ticks = 0;
  while (!bytes.at_end()) {
    ticks += bytes.vlq();
    const std::uint8_t status = bytes.byte();
    if (status == 0xFF) {
      const std::uint8_t kind = bytes.byte();
      add_meta(ticks, kind, bytes.take(bytes.vlq()), events);
      continue;
    }
    const std::uint8_t first = bytes.byte();
    const unsigned message = status & 0xF0U;
    const bool has_one = message == 0xC0U || message == 0xD0U;
    track.push_back({ticks, status, first, has_one ? std::uint8_t{0} : bytes.byte()});
  }
  events.end_ticks = std::max(events.end_ticks, ticks);
  return track;
}

}  // namespace

SmfEvents events_of(std::string_view clean) {
  SmfEvents events;
  events.ticks_per_quarter = big_endian(clean.substr(division_offset, 2));
  CleanBytes chunks(clean.substr(clean_header_bytes));
  while (!chunks.at_end()) {
    const std::uint32_t length = big_endian(chunks.take(clean_chunk_header_bytes).substr(4));
    TrackEvents track = track_events(chunks.take(length), events);
    events.tracks.push_back(std::move(track));
  }
  events.tracks.erase(events.tracks.begin());
  std::ranges::stable_sort(events.keys, {}, &KeyMark::ticks);
  return events;
}

}  // namespace insideline::io
