// The door for a recording: from the file to the MIDI file of what is heard in it, which the rest of the program reads
// as any other; with what must be told beside it.
#pragma once

#include "io/audio/heard_line.hpp"
#include "io/read_result.hpp"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

/// Known elsewhere: times count from the start of the recording, as tapped beats do.
enum class RecordingBeats : std::uint8_t { in_recording, known_elsewhere };

struct RecordingOptions {
  ListeningRange range{};
  std::optional<double> tempo_bpm{};  ///< quarter notes a minute, > 0; wins over the tempo of a count-in
  RecordingBeats beats = RecordingBeats::in_recording;
};

/// The same notes with the beat half a beat off.
struct HalfBeatOff {
  std::string midi;
  double behind = 0.0;  ///< the logarithm of how much likelier the other place of the beat is
};

struct Recording {
  std::string midi;  ///< the bytes of a MIDI file: a bar of clicks has become an empty bar
  HeardLine line;    ///< its notes are those of `midi`, in the same order
  bool has_beats = false;
  std::optional<HalfBeatOff> half_beat_off{};  ///< where nothing but the notes tells the beat
  std::vector<Warning> warnings{};
};

/// Throws ReadError: no recording, breaks off, silent, no notes, too noisy or several notes at a time.
Recording read_recording(const std::filesystem::path& file, const RecordingOptions& options = {});
Recording parse_recording(std::string_view bytes, std::string_view file_name, const RecordingOptions& options = {});

}  // namespace insideline::io
