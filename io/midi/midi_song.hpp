// A MIDI file as voices: the notes of one channel in one track, ends paired with beginnings.
#pragma once

#include "io/midi/smf_check.hpp"
#include "io/midi/smf_events.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace insideline::io {

struct MidiNote {
  std::uint32_t onset_ticks = 0;
  std::uint32_t end_ticks = 0;  ///< after the onset
  std::uint8_t midi = 60;
  friend bool operator==(const MidiNote&, const MidiNote&) = default;
};

struct MidiVoice {
  int track = 1;                ///< as the file counts its tracks, from 1
  int channel = 1;              ///< 1..16; the first where several are one line
  std::string name;             ///< of the track; may be empty
  std::optional<int> program;   ///< the first General MIDI sound, 0..127
  std::vector<MidiNote> notes;  ///< by onset, then by pitch from below
  std::size_t bent_notes = 0;   ///< notes during which the pitch wheel was well off its centre
  std::size_t channels = 1;     ///< whose notes these are
};

struct MidiSong {
  std::uint32_t ticks_per_quarter = 480;
  std::vector<TempoMark> tempos;
  std::vector<MeterMark> meters;
  std::vector<KeyMark> keys;
  std::vector<SmfText> texts;
  std::vector<MidiVoice> voices;     ///< those with notes, by track and channel; no percussion
  std::size_t percussion_notes = 0;  ///< of channel 10, left out
  std::size_t unended_notes = 0;     ///< held to the next note of their channel because nothing ends them
  std::uint32_t end_ticks = 0;       ///< where the last track ends
};

MidiSong song_of(const CheckedSmf& checked);

/// The name of the piece: that of the first track of a file of several tracks, where it names no voice; else empty.
std::string title_of(const MidiSong& song);

/// A text of the file as UTF-8: what is not, is read as Latin-1, which every byte string is.
std::string readable(std::string_view bytes);

}  // namespace insideline::io
