#include "tests/io/midi/midi_shorthand.hpp"

#include "io/midi/midi.hpp"
#include "io/midi/smf_bytes.hpp"
#include "io/midi/smf_writer.hpp"
#include "tests/io/midi/smf_bytes.hpp"

#include <algorithm>
#include <bit>
#include <cmath>
#include <sstream>

namespace insideline::tests {
namespace {

constexpr unsigned velocity = 80;

std::string message(unsigned status, unsigned first, unsigned second) {
  std::string bytes;
  io::append_byte(bytes, status);
  io::append_byte(bytes, first);
  io::append_byte(bytes, second);
  return bytes;
}

void sort(std::vector<io::OutgoingEvent>& events) {
  std::ranges::stable_sort(events, {}, [](const io::OutgoingEvent& event) {
    const bool begins = (static_cast<unsigned char>(event.bytes.front()) & 0xF0U) == 0x90U;
    return std::pair(event.ticks, begins);
  });
}

void add_note(std::vector<io::OutgoingEvent>& events, int midi, std::uint32_t onset, std::uint32_t end, int channel) {
  const auto offset = static_cast<unsigned>(channel - 1);
  events.push_back({onset, message(0x90U + offset, static_cast<unsigned>(midi), velocity)});
  events.push_back({end, message(0x80U + offset, static_cast<unsigned>(midi), 0)});
}

io::OutgoingEvent name_event(const std::string& name) {
  std::string bytes = bytes_from("FF 03");
  io::append_vlq(bytes, static_cast<std::uint32_t>(name.size()));
  return {0, bytes + name};
}

}  // namespace

std::string midi_file(const std::vector<TrackOfNotes>& tracks) {
  io::OutgoingSmf file{480, {{}}, 0};
  for (const TrackOfNotes& track : tracks) {
    std::vector<io::OutgoingEvent> events;
    if (!track.name.empty()) events.push_back(name_event(track.name));
    for (const std::string& event : track.events) {
      const std::string bytes = bytes_from(event);
      io::SmfCursor cursor(bytes, 0);
      const std::uint32_t ticks = cursor.vlq().value();
      events.push_back({ticks, std::string(cursor.take_at_most(bytes.size()))});
    }
    std::istringstream words(track.notes);
    for (std::string word; words >> word;) {
      const auto at = word.find('@');
      const auto plus = word.find('+');
      const auto onset = static_cast<std::uint32_t>(std::stoul(word.substr(at + 1)));
      const auto length = static_cast<std::uint32_t>(std::stoul(word.substr(plus + 1)));
      add_note(events, midi_number(parse_pitch(word.substr(0, at)).value()), onset, onset + length, track.channel);
    }
    sort(events);
    file.tracks.push_back(std::move(events));
  }
  return io::save_smf(file);
}

/// One bar of silence instead of the lead, so that bar lines stay where they are.
Beats bar_one_in_performed_file(const Solo& solo) {
  const Beats bar = bar_length(solo.bars.back().meter);
  return solo.bars.front().number == 0 ? bar + bar : bar;
}

std::string performed_file(const Solo& solo, const Take& take) {
  constexpr double ticks_per_quarter = 960.0;
  constexpr double microseconds_per_minute = 60e6;
  const double ticks_per_second = ticks_per_quarter * take.tempo_bpm / 60.0;
  const auto tempo = static_cast<std::uint32_t>(std::lround(microseconds_per_minute / take.tempo_bpm));
  const Meter meter = solo.bars.back().meter;
  const Beats lead = bar_one_in_performed_file(solo) + solo.bars.front().onset;
  const double shift = to_double(lead) * ticks_per_quarter - lead_seconds * ticks_per_second;
  std::vector<io::OutgoingEvent> events;
  std::string bytes = bytes_from("FF 51 03");
  io::append_byte(bytes, tempo >> 16U);
  io::append_u16(bytes, tempo);
  events.push_back({0, bytes});
  bytes = bytes_from("FF 58 04");
  io::append_byte(bytes, static_cast<unsigned>(meter.beats));
  io::append_byte(bytes, static_cast<unsigned>(std::countr_zero(static_cast<unsigned>(meter.unit))));
  io::append_byte(bytes, 24);
  io::append_byte(bytes, 8);
  events.push_back({0, bytes});
  const auto notes = played(solo, take);
  for (std::size_t i = 0; i < notes.size(); ++i) {
    const auto ticks = [&](double seconds) {
      return static_cast<std::uint32_t>(std::max(0L, std::lround(seconds * ticks_per_second + shift)));
    };
    add_note(events, midi_number(solo.notes[i].pitch), ticks(notes[i].onset_seconds), ticks(notes[i].end_seconds), 1);
  }
  sort(events);
  return io::save_smf({960, {std::move(events)}, 0});
}

io::ReadResult read_midi(std::string_view bytes, const io::ReadOptions& options) {
  return io::parse_midi(bytes, "take.mid", options);
}

std::string notes_of(const Solo& solo) {
  std::string text;
  for (const Note& note : solo.notes) {
    const std::string place = to_string(note.pitch) + "@" + to_string(note.onset);
    text += (text.empty() ? "" : " ") + (note.grace ? "(" + place + ")" : place + "+" + to_string(note.duration));
  }
  return text;
}

std::string warnings_of(const io::ReadResult& result) {
  std::string text;
  for (const auto& warning : result.warnings) text += warning.message + "\n";
  return text;
}

}  // namespace insideline::tests
