#include "io/midi/smf_check.hpp"

#include "io/midi/smf_bytes.hpp"
#include "io/midi/smf_track.hpp"

#include <algorithm>
#include <cassert>
#include <cctype>
#include <utility>

namespace insideline::io {
namespace {

constexpr std::size_t largest_file_bytes = std::size_t{16} << 20U;
constexpr std::size_t most_tracks = 4096;
constexpr std::size_t most_tempos = 20'000;
constexpr std::size_t most_tempo_event_pairs =
    2'000'000'000;  // far beyond any music; readers look for each event's tempo
constexpr std::size_t chunk_header_bytes = 8;
constexpr std::size_t header_bytes = 6;
constexpr std::uint32_t microseconds_per_second = 1'000'000;

using Refusal = tl::unexpected<SmfFinding>;

Refusal refusal(SmfFault fault, std::size_t offset_bytes) { return Refusal(SmfFinding{fault, offset_bytes, 1}); }

struct Header {
  std::uint32_t track_count = 0;
  std::size_t count_offset = 0;  ///< where the header says how many tracks there are
  std::uint32_t ticks_per_quarter = 0;
  std::optional<std::uint32_t> quarter_microseconds;  ///< where ticks are film frames: a "quarter" of one second
};

/// A film frame's share: 24, 25, 30 frames a second, or 29.97 counted as 30.
std::optional<Header> smpte_header(std::uint32_t division) {
  constexpr std::uint32_t drop_frame_microseconds = 1'001'000;
  const int code = static_cast<std::int8_t>(division >> 8U);
  const std::uint32_t ticks_per_frame = division & 0xFFU;
  if (ticks_per_frame == 0 || (code != -24 && code != -25 && code != -29 && code != -30)) return std::nullopt;
  const std::uint32_t frames = code == -29 ? 30U : static_cast<std::uint32_t>(-code);
  return Header{0, 0, frames * ticks_per_frame, code == -29 ? drop_frame_microseconds : microseconds_per_second};
}

/// The file inside a RIFF container (RMID), with its offset; the bytes themselves where there is none.
SmfCursor unwrapped(std::string_view bytes) {
  constexpr std::size_t wrapper_bytes = 20;  // RIFF size RMID data size
  const bool wrapped = bytes.size() >= wrapper_bytes && bytes.starts_with("RIFF") && bytes.substr(8, 8) == "RMIDdata";
  if (!wrapped) return {bytes, 0};
  const std::string_view size = bytes.substr(16, 4);
  const std::string reversed(size.rbegin(), size.rend());  // RIFF counts little-endian
  return {bytes.substr(wrapper_bytes, big_endian(reversed)), wrapper_bytes};
}

tl::expected<Header, SmfFinding> read_header(SmfCursor& file, const SmfCheckOptions& options) {
  const std::size_t start = file.offset();
  if (file.left() < chunk_header_bytes + header_bytes) {
    const std::string_view begin = file.take_at_most(4);
    const bool is_smf = !begin.empty() && std::string_view("MThd").starts_with(begin);
    return refusal(is_smf ? SmfFault::too_short : SmfFault::not_smf, start);
  }
  if (file.take(4) != "MThd") return refusal(SmfFault::not_smf, start);
  const std::uint32_t length = big_endian(*file.take(4));
  if (length < header_bytes || length > file.left()) return refusal(SmfFault::bad_header_length, start + 4);
  const std::string_view fields = *file.take(length);  // a longer header is allowed; the rest is for later standards
  const std::uint32_t format = big_endian(fields.substr(0, 2));
  if (format == 2) return refusal(SmfFault::format_2, start + 8);
  if (format > 2) return refusal(SmfFault::bad_format, start + 8);
  Header header;
  const std::uint32_t division = big_endian(fields.substr(4, 2));
  if ((division & 0x8000U) != 0) {
    const auto frames = smpte_header(division);
    if (!frames || options.smpte == SmpteTime::refused) return refusal(SmfFault::smpte_division, start + 12);
    header = *frames;
  } else {
    header.ticks_per_quarter = division;
  }
  if (header.ticks_per_quarter == 0) return refusal(SmfFault::zero_division, start + 12);
  header.track_count = big_endian(fields.substr(2, 2));
  header.count_offset = start + 10;
  return header;
}

bool is_chunk_name(std::string_view name) {
  return std::ranges::all_of(name, [](char letter) { return std::isprint(static_cast<unsigned char>(letter)) != 0; });
}

/// Reads all tracks. Invariant: `tracks_` holds every track that was begun, clean.
class FileReader {
 public:
  FileReader(SmfCursor file, const SmfCheckOptions& options) : file_(file), options_(options) {}

  tl::expected<CheckedSmf, SmfFinding> read() {
    const auto header = read_header(file_, options_);
    if (!header) return tl::unexpected(header.error());
    const std::size_t count_offset = header->count_offset;
    while (!file_.at_end() && !refusal_) read_chunk(*header);
    if (refusal_) return tl::unexpected(*refusal_);
    if (tracks_.empty()) return refusal(SmfFault::no_tracks, count_offset);
    if (tracks_.size() != header->track_count) harvest_.note(SmfFault::track_count, count_offset);
    return assembled(*header);
  }

 private:
  void read_chunk(const Header& header) {
    const std::size_t start = file_.offset();
    const auto name = file_.take(4);
    const auto size = file_.take(4);
    if (!name || !size || !is_chunk_name(*name)) return leave_out_garbage(start, header);
    const std::size_t length = big_endian(*size);
    if (length > file_.left()) harvest_.note(SmfFault::chunk_overrun, start + 4);
    const std::size_t content = file_.offset();
    const std::string_view bytes = file_.take_at_most(length);
    if (*name != "MTrk") return harvest_.note(SmfFault::unknown_chunk, start);
    if (tracks_.size() == most_tracks) return refuse({SmfFault::too_many_tracks, start, 1});
    read_track(SmfCursor(bytes, content));
  }

  void read_track(SmfCursor content) {
    tracks_.emplace_back();
    const auto fault = read_smf_track(content, static_cast<int>(tracks_.size()), tracks_.back(), harvest_);
    const auto stepped_over = std::ranges::find(harvest_.findings, SmfFault::system_common, &SmfFinding::fault);
    if (stepped_over != harvest_.findings.end() && options_.damage == Damage::refused) return refuse(*stepped_over);
    if (fault) {
      if (severity(fault->fault) == Severity::unusable || options_.damage == Damage::refused) return refuse(*fault);
      return harvest_.note(fault->fault, fault->offset_bytes);
    }
    if (!content.at_end()) harvest_.note(SmfFault::bytes_after_end, content.offset());
  }

  /// After the last track anything may follow; between tracks it hides music, and salvage looks for the next one.
  void leave_out_garbage(std::size_t start, const Header& header) {
    if (tracks_.size() >= header.track_count) {
      harvest_.note(SmfFault::bytes_after_end, start);
      static_cast<void>(file_.take(file_.left()));
      return;
    }
    if (options_.damage == Damage::refused) return refuse({SmfFault::chunk_garbage, start, 1});
    harvest_.note(SmfFault::chunk_garbage, start);
    file_.seek(start + 1);
    file_.skip_to("MTrk");
  }

  void refuse(const SmfFinding& finding) { refusal_ = finding; }

  tl::expected<CheckedSmf, SmfFinding> assembled(const Header& header) {
    std::vector<ConductorEvent> conductor = conductor_track(header);
    const std::size_t pairs = conductor.size() * harvest_.event_count;
    if (conductor.size() > most_tempos || pairs > most_tempo_event_pairs) return refusal(SmfFault::too_many_tempos, 0);
    CheckedSmf checked;
    CleanTrack first;
    for (const ConductorEvent& event : conductor) {
      append_vlq(first.events, event.ticks - first.last_ticks);
      first.events += event.bytes;
      first.last_ticks = first.end_ticks = event.ticks;
    }
    for (std::size_t i = 0; i < tracks_.size(); ++i)
      if (!tracks_[i].events.empty()) checked.track_numbers.push_back(static_cast<int>(i) + 1);
    std::string& clean = checked.clean;
    clean = "MThd";
    append_u32(clean, header_bytes);
    append_u16(clean, 1);
    append_u16(clean, static_cast<std::uint32_t>(checked.track_numbers.size()) + 1);
    append_u16(clean, header.ticks_per_quarter);
    append_track(clean, first);
    for (const CleanTrack& track : tracks_)
      if (!track.events.empty()) append_track(clean, track);
    checked.texts = std::move(harvest_.texts);
    checked.findings = std::move(harvest_.findings);
    checked.note_count = harvest_.note_count;
    return checked;
  }

  /// In order of time, each only where it changes something.
  std::vector<ConductorEvent> conductor_track(const Header& header) {
    constexpr std::size_t kind_bytes = 2;
    std::vector<ConductorEvent>& all = harvest_.conductor;
    if (header.quarter_microseconds) {
      std::erase_if(all, [](const ConductorEvent& event) { return event.bytes.starts_with("\xFF\x51"); });
      std::string tempo = "\xFF\x51\x03";
      append_byte(tempo, *header.quarter_microseconds >> 16U);
      append_u16(tempo, *header.quarter_microseconds);
      all.insert(all.begin(), {0, tempo});
    }
    std::ranges::stable_sort(all, {}, &ConductorEvent::ticks);
    std::vector<ConductorEvent> changes;
    std::string tempo;
    std::string meter;
    for (ConductorEvent& event : all) {
      std::string& last = event.bytes.substr(0, kind_bytes) == "\xFF\x51" ? tempo : meter;
      if (last == event.bytes) continue;
      last = event.bytes;
      changes.push_back(std::move(event));
    }
    return changes;
  }

  static void append_track(std::string& clean, const CleanTrack& track) {
    constexpr std::uint32_t end_bytes = 3;
    std::string delta;
    append_vlq(delta, track.end_ticks - track.last_ticks);
    clean += "MTrk";
    append_u32(clean, static_cast<std::uint32_t>(track.events.size() + delta.size()) + end_bytes);
    clean += track.events;
    clean += delta;
    clean += std::string_view("\xFF\x2F\x00", end_bytes);
  }

  SmfCursor file_;
  SmfCheckOptions options_;
  std::vector<CleanTrack> tracks_;
  SmfHarvest harvest_;
  std::optional<SmfFinding> refusal_;
};

}  // namespace

tl::expected<CheckedSmf, SmfFinding> check_smf(std::string_view bytes, const SmfCheckOptions& options) {
  if (bytes.size() > largest_file_bytes) return refusal(SmfFault::file_too_large, 0);
  return FileReader(unwrapped(bytes), options).read();
}

}  // namespace insideline::io
