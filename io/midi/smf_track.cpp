#include "io/midi/smf_track.hpp"

#include <algorithm>
#include <cassert>

namespace insideline::io {
namespace {

constexpr std::size_t most_events = 1'000'000;     // some ten hours of a player who never rests
constexpr std::size_t longest_clean_text = 127;    // some readers take a text's length for one byte
constexpr unsigned largest_denominator_power = 6;  // 64th notes
constexpr int most_accidentals = 7;

enum Meta : std::uint8_t {
  first_text = 0x01,
  last_text = 0x09,
  end_of_track = 0x2F,
  set_tempo = 0x51,
  time_signature = 0x58,
  key_signature = 0x59
};

using Reading = tl::expected<void, SmfFault>;

std::uint8_t byte_at(std::string_view bytes, std::size_t index) { return static_cast<std::uint8_t>(bytes[index]); }

bool is_readable_tempo(std::string_view data) { return data.size() == 3 && big_endian(data) != 0; }

bool is_readable_meter(std::string_view data) {
  return data.size() == 4 && byte_at(data, 0) > 0 && byte_at(data, 1) <= largest_denominator_power;
}

bool is_readable_key(std::string_view data) {
  if (data.size() != 2) return false;
  const int fifths = static_cast<std::int8_t>(byte_at(data, 0));
  return fifths >= -most_accidentals && fifths <= most_accidentals && byte_at(data, 1) <= 1;
}

/// Program change and channel pressure have one data byte, the other channel messages two.
std::size_t data_bytes(std::uint8_t status) {
  const unsigned kind = status & 0xF0U;
  return kind == 0xC0U || kind == 0xD0U ? 1 : 2;
}

/// System common messages belong on a wire, not into a file, but their length is known (MIDI 1.0): a quarter frame and
/// a song number have one data byte, a song position two, a tune request none.
std::optional<std::size_t> system_common_data_bytes(std::uint8_t status) {
  switch (status) {
    case 0xF1:
    case 0xF3: return 1;
    case 0xF2: return 2;
    case 0xF6: return 0;
    default: return std::nullopt;
  }
}

/// Reads one track. Invariant: `track_.events` is a whole number of clean events.
class TrackReader {
 public:
  TrackReader(SmfCursor& cursor, int track_number, CleanTrack& track, SmfHarvest& harvest)
      : cursor_(cursor), number_(track_number), track_(track), harvest_(harvest) {}

  std::optional<SmfFinding> read() {
    track_.events.reserve(cursor_.left() + cursor_.left() / 4);  // running status is written out
    while (!ended_) {
      event_offset_ = cursor_.offset();
      if (cursor_.at_end()) {
        harvest_.note(SmfFault::missing_end_of_track, event_offset_);
        break;
      }
      const Reading reading = read_event();
      track_.end_ticks = ticks_;
      if (!reading) return SmfFinding{reading.error(), event_offset_, 1};
    }
    return std::nullopt;
  }

 private:
  Reading read_event() {
    const auto delta = cursor_.vlq();
    if (!delta) return tl::unexpected(delta.error());
    if (*delta > largest_vlq - ticks_) return tl::unexpected(SmfFault::time_overflow);
    ticks_ += *delta;
    const auto status = read_status();
    if (!status) return tl::unexpected(status.error());
    if (*status < 0xF0) return read_channel_event(*status);
    running_status_interrupted_ = true;
    if (const auto length = system_common_data_bytes(*status)) return skip_system_common(*length);
    if (*status == 0xFF) return read_meta();
    return skip_system_exclusive();
  }

  /// Clock bytes are skipped on the way; a data byte stands for the status before it.
  tl::expected<std::uint8_t, SmfFault> read_status() {
    while (const auto next = cursor_.peek()) {
      if (*next < 0x80) {
        if (!running_status_) return tl::unexpected(SmfFault::no_running_status);
        if (running_status_interrupted_) harvest_.note(SmfFault::running_after_meta, cursor_.offset());
        return *running_status_;
      }
      if (*next <= 0xF0 || *next == 0xF7 || *next == 0xFF || system_common_data_bytes(*next)) return *cursor_.byte();
      const bool is_realtime = *next == 0xF8 || (*next >= 0xFA && *next <= 0xFC) || *next == 0xFE;
      if (!is_realtime) return tl::unexpected(SmfFault::bad_status);
      harvest_.note(SmfFault::realtime_byte, cursor_.offset());
      static_cast<void>(cursor_.byte());
      if (const Reading time = read_time_after_clock(); !time) return tl::unexpected(time.error());
    }
    return tl::unexpected(SmfFault::event_truncated);
  }

  /// A clock byte is an event of its own: what follows it is the next event's time.
  Reading read_time_after_clock() {
    if (cursor_.at_end()) return tl::unexpected(SmfFault::event_truncated);
    const auto delta = cursor_.vlq();
    if (!delta) return tl::unexpected(delta.error());
    if (*delta > largest_vlq - ticks_) return tl::unexpected(SmfFault::time_overflow);
    ticks_ += *delta;
    return {};
  }

  Reading read_channel_event(std::uint8_t status) {
    const auto data = cursor_.take(data_bytes(status));
    if (!data) return tl::unexpected(SmfFault::event_truncated);
    if (std::ranges::any_of(*data, [](char byte) { return static_cast<std::uint8_t>(byte) >= 0x80; }))
      return tl::unexpected(SmfFault::data_byte_high);
    running_status_ = status;
    running_status_interrupted_ = false;
    if ((status & 0xF0U) == 0x90U && byte_at(*data, 1) > 0) ++harvest_.note_count;
    start_event();
    const char message[] = {static_cast<char>(status), data->front(), data->back()};
    track_.events.append(message, 1 + data->size());
    return count_event();
  }

  Reading read_meta() {
    const auto kind = cursor_.byte();
    if (!kind) return tl::unexpected(SmfFault::event_truncated);
    const auto length = cursor_.vlq();
    if (!length) return tl::unexpected(length.error());
    const auto data = cursor_.take(*length);
    if (!data) return tl::unexpected(SmfFault::event_truncated);
    if (*kind == Meta::end_of_track) ended_ = true;
    if (*kind >= Meta::first_text && *kind <= Meta::last_text) return keep_text(*kind, *data);
    if (*kind == Meta::set_tempo) return keep_for_conductor(*kind, *data, is_readable_tempo, SmfFault::bad_tempo);
    if (*kind == Meta::time_signature)
      return keep_for_conductor(*kind, *data, is_readable_meter, SmfFault::bad_time_signature);
    if (*kind == Meta::key_signature) return keep_key(*data);
    return {};
  }

  Reading keep_text(std::uint8_t kind, std::string_view text) {
    harvest_.texts.push_back({number_, ticks_, kind, std::string(text)});
    write_meta(kind, text.substr(0, longest_clean_text));
    return count_event();
  }

  Reading keep_key(std::string_view data) {
    if (!is_readable_key(data)) {
      harvest_.note(SmfFault::bad_key_signature, event_offset_);
      return {};
    }
    write_meta(Meta::key_signature, data);
    return count_event();
  }

  Reading keep_for_conductor(std::uint8_t kind, std::string_view data, bool (*is_readable)(std::string_view),
                             SmfFault fault) {
    if (!is_readable(data)) {
      harvest_.note(fault, event_offset_);
      return {};
    }
    std::string bytes = "\xFF";
    append_byte(bytes, kind);
    append_vlq(bytes, static_cast<std::uint32_t>(data.size()));
    bytes += data;
    harvest_.conductor.push_back({ticks_, std::move(bytes)});
    return count_event();
  }

  Reading skip_system_exclusive() {
    const auto length = cursor_.vlq();
    if (!length) return tl::unexpected(length.error());
    if (!cursor_.take(*length)) return tl::unexpected(SmfFault::event_truncated);
    return {};
  }

  Reading skip_system_common(std::size_t length) {
    harvest_.note(SmfFault::system_common, event_offset_);
    const auto data = cursor_.take(length);
    if (!data) return tl::unexpected(SmfFault::event_truncated);
    if (std::ranges::any_of(*data, [](char byte) { return static_cast<std::uint8_t>(byte) >= 0x80; }))
      return tl::unexpected(SmfFault::data_byte_high);
    return {};
  }

  void write_meta(std::uint8_t kind, std::string_view data) {
    start_event();
    append_byte(track_.events, 0xFF);
    append_byte(track_.events, kind);
    append_vlq(track_.events, static_cast<std::uint32_t>(data.size()));
    track_.events += data;
  }

  void start_event() {
    append_vlq(track_.events, ticks_ - track_.last_ticks);
    track_.last_ticks = ticks_;
  }

  Reading count_event() {
    ++harvest_.event_count;
    if (harvest_.event_count > most_events) return tl::unexpected(SmfFault::too_many_events);
    return {};
  }

  SmfCursor& cursor_;
  int number_;
  CleanTrack& track_;
  SmfHarvest& harvest_;
  std::uint32_t ticks_ = 0;
  std::size_t event_offset_ = 0;
  std::optional<std::uint8_t> running_status_;
  bool running_status_interrupted_ = false;  // the standard forbids to go on after a meta event; many files do
  bool ended_ = false;
};

}  // namespace

void SmfHarvest::note(SmfFault fault, std::size_t offset_bytes) {
  constexpr std::size_t most_told_apart = 40;
  if (severity(fault) == Severity::harmless || findings.size() >= most_told_apart) {
    const auto same = std::ranges::find(findings, fault, &SmfFinding::fault);
    if (same != findings.end()) {
      ++same->count;
      return;
    }
  }
  findings.push_back({fault, offset_bytes, 1});
}

std::optional<SmfFinding> read_smf_track(SmfCursor& cursor, int track_number, CleanTrack& track, SmfHarvest& harvest) {
  return TrackReader(cursor, track_number, track, harvest).read();
}

}  // namespace insideline::io
