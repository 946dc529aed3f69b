#include "tests/io/midi/second_reader.hpp"

// glib.h must come before smf.h, which includes it inside extern "C".
// clang-format off
#include <glib.h>
#include <smf.h>
// clang-format on

#include <algorithm>
#include <cstdlib>
#include <memory>
#include <stdexcept>

namespace insideline::tests {
namespace {

/// libsmf's own release is quadratic; freed here first, the tracks it finds are empty.
struct LetGo {
  void operator()(smf_t* smf) const noexcept {
    for (guint i = 0; i < smf->tracks_array->len; ++i) {
      auto* track = static_cast<smf_track_t*>(g_ptr_array_index(smf->tracks_array, i));
      for (guint k = 0; k < track->events_array->len; ++k) {
        auto* event = static_cast<smf_event_t*>(g_ptr_array_index(track->events_array, k));
        std::free(event->midi_buffer);
        std::free(event);
      }
      g_ptr_array_set_size(track->events_array, 0);
      track->number_of_events = 0;
    }
    smf_delete(smf);
  }
};

void keep(const gchar* /*domain*/, GLogLevelFlags /*level*/, const gchar* message, gpointer complaints) {
  static_cast<std::vector<std::string>*>(complaints)->emplace_back(message);
}

void read_meta(const unsigned char* bytes, std::uint32_t ticks, io::SmfEvents& events) {
  if (bytes[1] == 0x51) events.tempos.push_back({ticks, bytes[3] * 65536U + bytes[4] * 256U + bytes[5]});
  if (bytes[1] == 0x58) events.meters.push_back({ticks, {.beats = bytes[3], .unit = 1 << bytes[4]}});
  if (bytes[1] == 0x59)
    events.keys.push_back({ticks, {.fifths = static_cast<std::int8_t>(bytes[3]), .minor = bytes[4] == 1}});
}

void read_event(const smf_event_t& event, io::TrackEvents& track, io::SmfEvents& events) {
  const auto ticks = static_cast<std::uint32_t>(event.time_pulses);
  const unsigned char* bytes = event.midi_buffer;
  events.end_ticks = std::max(events.end_ticks, ticks);
  if (bytes[0] == 0xFF) return read_meta(bytes, ticks, events);
  track.push_back({ticks, bytes[0], bytes[1], event.midi_buffer_length > 2 ? bytes[2] : std::uint8_t{0}});
}

}  // namespace

SecondReading read_by_libsmf(std::string_view bytes) {
  SecondReading reading;
  constexpr auto all = static_cast<GLogLevelFlags>(G_LOG_LEVEL_MASK | G_LOG_FLAG_FATAL | G_LOG_FLAG_RECURSION);
  const guint handler = g_log_set_handler("libsmf", all, keep, &reading.complaints);
  std::string copy(bytes);  // libsmf wants bytes that may be written to
  const std::unique_ptr<smf_t, LetGo> smf(smf_load_from_memory(copy.data(), static_cast<int>(copy.size())));
  g_log_remove_handler("libsmf", handler);
  if (smf == nullptr) throw std::runtime_error("libsmf refuses the file");
  io::SmfEvents& events = reading.events;
  events.ticks_per_quarter = static_cast<std::uint32_t>(smf->ppqn);
  for (guint i = 0; i < smf->tracks_array->len; ++i) {
    const auto* source = static_cast<const smf_track_t*>(g_ptr_array_index(smf->tracks_array, i));
    io::TrackEvents track;
    for (guint k = 0; k < source->events_array->len; ++k)
      read_event(*static_cast<const smf_event_t*>(g_ptr_array_index(source->events_array, k)), track, events);
    if (i > 0) events.tracks.push_back(std::move(track));
  }
  std::ranges::stable_sort(events.keys, {}, &io::KeyMark::ticks);
  return reading;
}

}  // namespace insideline::tests
