#include "io/midi/midi_writer.hpp"

#include "io/midi/page_place.hpp"
#include "io/midi/smf_bytes.hpp"
#include "io/midi/smf_writer.hpp"

#include <algorithm>
#include <bit>
#include <cassert>
#include <cmath>
#include <optional>
#include <string_view>
#include <utility>
#include <vector>

namespace insideline::io {
namespace {

constexpr std::uint32_t ticks_per_quarter = 960;
constexpr double written_grace_seconds = 0.04;
constexpr unsigned struck = 80;  // velocity: mezzo forte
constexpr std::size_t longest_text = 127;
constexpr unsigned track_name = 3;  // kind of meta event

/// Turns places of the page into ticks from the first bar's beginning.
class PageClock {
 public:
  explicit PageClock(const Solo& solo) : begin_(solo.bars.front().onset) {}
  [[nodiscard]] std::uint32_t ticks_at(const Beats& place) const {
    const double ticks = to_double(place - begin_) * ticks_per_quarter;
    return static_cast<std::uint32_t>(std::clamp(std::llround(ticks), 0LL, static_cast<long long>(largest_vlq)));
  }

 private:
  Beats begin_;
};

OutgoingEvent meta(std::uint32_t ticks, unsigned kind, std::string_view data) {
  OutgoingEvent event{ticks, "\xFF"};
  append_byte(event.bytes, kind);
  append_vlq(event.bytes, static_cast<std::uint32_t>(data.size()));
  event.bytes += data;
  return event;
}

OutgoingEvent text(std::uint32_t ticks, unsigned kind, std::string_view words) {
  return meta(ticks, kind, words.substr(0, longest_text));
}

OutgoingEvent tempo(std::uint32_t ticks, double bpm) {
  constexpr double microseconds_per_minute = 60e6;
  constexpr double slowest = 0xFFFFFF;
  const double quarter = std::clamp(std::round(microseconds_per_minute / bpm), 1.0, slowest);
  std::string data;
  const auto microseconds = static_cast<std::uint32_t>(quarter);
  append_byte(data, microseconds >> 16U);
  append_u16(data, microseconds);
  return meta(ticks, 0x51, data);
}

/// The meter that a bar of `length` has: its own, or as many of its beats, or of a finer value, as it lasts.
Meter sounding_meter(const Bar& bar) {
  constexpr int finest = 64;
  if (bar.length == bar_length(bar.meter)) return bar.meter;
  for (int unit = bar.meter.unit; unit <= finest; unit *= 2) {
    const Beats beats = bar.length * Beats(unit, 4);
    if (beats.denominator() == 1 && beats.numerator() < 256) return {static_cast<int>(beats.numerator()), unit};
  }
  return bar.meter;
}

void add_meters(const Solo& solo, const PageClock& clock, std::vector<OutgoingEvent>& events) {
  constexpr unsigned clocks_per_click = 24;
  constexpr unsigned thirty_seconds_per_quarter = 8;
  std::optional<Meter> last;
  for (const Bar& bar : solo.bars) {
    const Meter meter = sounding_meter(bar);
    if (last == meter) continue;
    last = meter;
    std::string data;
    append_byte(data, static_cast<unsigned>(meter.beats));
    append_byte(data, static_cast<unsigned>(std::countr_zero(static_cast<unsigned>(meter.unit))));
    append_byte(data, clocks_per_click);
    append_byte(data, thirty_seconds_per_quarter);
    events.push_back(meta(clock.ticks_at(bar.onset), 0x58, data));
  }
}

void add_keys(const Solo& solo, const PageClock& clock, const Interval& moved, std::vector<OutgoingEvent>& events) {
  for (const KeyChange& change : solo.keys) {
    const Key key = transposed(change.key, moved);
    std::string data;
    append_byte(data, static_cast<unsigned>(key.fifths));
    append_byte(data, key.minor ? 1U : 0U);
    events.push_back(meta(clock.ticks_at(change.onset), 0x59, data));
  }
}

void add_chords(const Harmony& harmony, const PageClock& clock, const Interval& moved,
                std::vector<OutgoingEvent>& events) {
  constexpr unsigned marker = 6;
  std::optional<Beats> end;
  for (const SoundingChord& sounding : harmony.chords) {
    if (end && *end < sounding.onset) events.push_back(text(clock.ticks_at(*end), marker, "N.C."));
    events.push_back(text(clock.ticks_at(sounding.onset), marker, transposed(sounding.chord, moved).symbol));
    end = sounding.onset + sounding.duration;
  }
}

struct PlayedNote {
  std::uint32_t onset = 0;
  std::uint32_t end = 0;
  unsigned midi = 60;
  unsigned velocity = struck;
};

/// Grace notes before their note, off every place of the page, so that they are known again.
void place_graces(const std::vector<Note>& notes, double tempo_bpm, std::vector<PlayedNote>& played) {
  constexpr double seconds_per_minute = 60.0;
  const double ticks = written_grace_seconds * tempo_bpm / seconds_per_minute * ticks_per_quarter;
  const auto length = std::max(1U, static_cast<std::uint32_t>(std::lround(ticks)));
  for (std::size_t i = notes.size(); i-- > 0;) {
    if (!notes[i].grace || i + 1 == notes.size()) continue;
    const std::uint32_t target = played[i + 1].onset;
    std::uint32_t onset = target > length ? target - length : 0;
    while (onset > 0 && onset < target && page_place(onset, ticks_per_quarter)) --onset;
    played[i].onset = onset;
    played[i].end = std::max(target, onset + 1);
    if (i > 0) played[i - 1].end = std::min(played[i - 1].end, onset);
  }
}

std::vector<OutgoingEvent> note_events(const std::vector<PlayedNote>& notes, unsigned channel = 0) {
  std::vector<OutgoingEvent> events;
  const auto message = [](unsigned status, unsigned midi, unsigned velocity) {
    std::string bytes;
    append_byte(bytes, status);
    append_byte(bytes, midi);
    append_byte(bytes, velocity);
    return bytes;
  };
  for (const PlayedNote& note : notes) {
    events.push_back({note.onset, message(0x90 | channel, note.midi, note.velocity)});
    events.push_back({std::max(note.end, note.onset + 1), message(0x80 | channel, note.midi, 0)});
  }
  // At one tick, what ends comes before what begins.
  std::ranges::stable_sort(events, {}, [](const OutgoingEvent& event) {
    return std::pair(event.ticks, static_cast<unsigned char>(event.bytes.front()));
  });
  return events;
}

std::vector<OutgoingEvent> accompanying(const AccompanyingTrack& track, const PageClock& clock) {
  std::vector<OutgoingEvent> events = {text(0, track_name, track.name)};
  if (track.program) {
    OutgoingEvent program{0, {}};
    append_byte(program.bytes, 0xC0 | track.channel);
    append_byte(program.bytes, *track.program);
    events.push_back(std::move(program));
  }
  std::vector<PlayedNote> played;
  for (const AccompanyingNote& note : track.notes)
    played.push_back({clock.ticks_at(note.onset), clock.ticks_at(note.onset + note.duration),
                      static_cast<unsigned>(note.midi), note.velocity});
  for (OutgoingEvent& event : note_events(played, track.channel)) events.push_back(std::move(event));
  return events;
}

}  // namespace

std::string write_midi(const Solo& solo, const Harmony& harmony, const MidiWriteOptions& options) {
  assert(!solo.bars.empty() && "a solo has bars");
  const bool as_written = options.pitch == MidiPitch::written;
  const Interval& interval = solo.sounding_minus_written;
  const Interval moved = as_written ? -interval : Interval{};
  const PageClock clock(solo);
  const double bpm = solo.tempo_bpm.value_or(options.tempo_bpm);

  std::vector<OutgoingEvent> conductor = {text(0, track_name, solo.title)};
  if (options.tempos.empty()) conductor.push_back(tempo(0, bpm));
  for (const TempoStep& step : options.tempos) conductor.push_back(tempo(clock.ticks_at(step.at), step.bpm));
  add_meters(solo, clock, conductor);
  add_keys(solo, clock, moved, conductor);
  add_chords(harmony, clock, moved, conductor);
  std::ranges::stable_sort(conductor, {}, &OutgoingEvent::ticks);

  std::vector<PlayedNote> played;
  for (const Note& note : solo.notes)
    played.push_back({clock.ticks_at(note.onset), clock.ticks_at(end_of(note)),
                      static_cast<unsigned>(midi_number(as_written ? note.written : note.pitch)), struck});
  place_graces(solo.notes, bpm, played);
  std::vector<OutgoingEvent> line = {text(0, track_name, solo.part)};
  for (OutgoingEvent& event : note_events(played)) line.push_back(std::move(event));

  OutgoingSmf smf{ticks_per_quarter, {std::move(conductor), std::move(line)}, clock.ticks_at(end_of(solo))};
  for (const AccompanyingTrack& track : options.accompaniment) smf.tracks.push_back(accompanying(track, clock));
  return save_smf(smf);
}

}  // namespace insideline::io
