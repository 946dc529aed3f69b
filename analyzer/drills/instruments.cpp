#include "analyzer/drills/instruments.hpp"

#include "analyzer/model/changes.hpp"
#include "analyzer/small_letters.hpp"
#include "analyzer/spelling.hpp"

#include <algorithm>
#include <array>

namespace insideline {
namespace {

constexpr Interval concert{0, 0};
constexpr Interval tone_down{-1, -2};
constexpr Interval octave_down{-7, -12};

// Source and its limits: see the header. Written range, then what makes it sound.
constexpr std::array instrument_table{
    Instrument{"flute", "Flute", "C4", "C7", concert},
    Instrument{"oboe", "Oboe", "Bb3", "F6", concert},
    Instrument{"clarinet", "Clarinet in B flat", "E3", "G6", tone_down},
    Instrument{"bass-clarinet", "Bass clarinet", "E3", "C6", {-8, -14}},
    Instrument{"bassoon", "Bassoon", "Bb1", "Bb4", concert, StaffClef::bass},
    Instrument{"soprano-sax", "Soprano saxophone", "Bb3", "F6", tone_down},
    Instrument{"alto-sax", "Alto saxophone", "Bb3", "F6", {-5, -9}},
    Instrument{"tenor-sax", "Tenor saxophone", "Bb3", "F6", {-8, -14}},
    Instrument{"baritone-sax", "Baritone saxophone", "Bb3", "F6", {-12, -21}},
    Instrument{"trumpet", "Trumpet in B flat", "F#3", "C6", tone_down},
    Instrument{"flugelhorn", "Flugelhorn", "F#3", "Bb5", tone_down},
    Instrument{"horn", "Horn in F", "C3", "G5", {-4, -7}},
    Instrument{"trombone", "Trombone", "E2", "Bb4", concert, StaffClef::bass},
    Instrument{"bass-trombone", "Bass trombone", "C2", "G4", concert, StaffClef::bass},
    Instrument{"euphonium", "Euphonium", "E2", "Bb4", concert, StaffClef::bass},
    Instrument{"tuba", "Tuba", "F1", "F4", concert, StaffClef::bass},
    Instrument{"violin", "Violin", "G3", "E6", concert},
    Instrument{"viola", "Viola", "C3", "A5", concert, StaffClef::alto},
    Instrument{"cello", "Cello", "C2", "A4", concert, StaffClef::bass},
    Instrument{"double-bass", "Double bass", "E2", "G4", octave_down, StaffClef::bass},
    Instrument{"guitar", "Guitar", "E3", "C6", octave_down},
    Instrument{"vibraphone", "Vibraphone", "F3", "F6", concert},
    Instrument{"piano", "Piano, right hand", "C4", "C6", concert},
    Instrument{"voice", "Voice", "A3", "D5", concert},
};

std::string hyphenated(std::string_view name) {
  std::string text;
  for (const char letter : name) text += letter == ' ' || letter == '_' ? '-' : small_letter(letter);
  return text;
}

int midi_of(std::string_view pitch) { return midi_number(parse_pitch(pitch).value_or(Pitch{})); }

}  // namespace

std::span<const Instrument> instruments() { return instrument_table; }

std::optional<Instrument> instrument_named(std::string_view name) {
  const auto* const found = std::ranges::find(instrument_table, hyphenated(name), &Instrument::name);
  return found == instrument_table.end() ? std::nullopt : std::optional(*found);
}

std::string instrument_names() {
  std::string names;
  for (const Instrument& instrument : instrument_table) names.append(names.empty() ? "" : ", ").append(instrument.name);
  return names;
}

PitchRange written_range(const Instrument& instrument) {
  return {midi_of(instrument.written_low), midi_of(instrument.written_high)};
}

PitchRange sounding_range(const Instrument& instrument) {
  const PitchRange written = written_range(instrument);
  const int moved = instrument.sounding_minus_written.semitones;
  return {written.lowest + moved, written.highest + moved};
}

std::optional<PitchRange> parse_pitch_range(std::string_view text) {
  // The first hyphen after a digit parts the two: "C-1-C4" begins below the piano.
  std::size_t dash = text.find('-');
  while (dash != std::string_view::npos && (dash == 0 || text[dash - 1] < '0' || text[dash - 1] > '9'))
    dash = text.find('-', dash + 1);
  if (dash == std::string_view::npos) return std::nullopt;
  const auto low = parse_pitch(text.substr(0, dash));
  const auto high = parse_pitch(text.substr(dash + 1));
  if (!low || !high) return std::nullopt;
  const PitchRange range{midi_number(*low), midi_number(*high)};
  constexpr int highest_midi = 127;
  if (range.lowest < 0 || range.highest > highest_midi || range.lowest >= range.highest) return std::nullopt;
  return range;
}

std::string to_string(const PitchRange& range) {
  constexpr int semitones = 12;
  const Key few_signs{-1, false};
  const auto name = [&](int midi) { return to_string(spelled_pitch(midi, usual_name(midi % semitones, few_signs))); };
  return name(range.lowest) + " to " + name(range.highest);
}

}  // namespace insideline
