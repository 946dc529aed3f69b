#include "io/audio/recording.hpp"

#include "io/audio/beat_phase.hpp"
#include "io/midi/smf_writer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>

namespace insideline::io {
namespace {

constexpr std::uint32_t ticks_a_quarter = 960;
constexpr double tempo_without_mark = 120.0;  // Standard MIDI Files 1.0

// Where a recording is given up, or told to be bad. Measured by rendered_instruments (tests/io/audio).
constexpr double silent_peak = 0.003;         // of full scale, 50 decibels below it
constexpr double clipped_share = 0.002;       // of the samples: a few loud moments are harmless
constexpr double least_pitched_share = 0.45;  // of the time that sounds; noise and chords have less
constexpr double doubtful_pitched_share = 0.65;

constexpr std::string_view how_to_record =
    "record one instrument alone: chords and clicks in headphones, the telephone a metre away";

/// Where the beats lie.
struct HeardBeat {
  double zero_seconds = 0.0;  ///< the start of the file
  double bpm = tempo_without_mark;
  bool is_known = false;
  int beats_a_bar = 4;
  std::optional<double> other_zero_seconds{};  ///< half a beat off, where it may be
  double lead = 0.0;                           ///< as in BeatPhase
};

double tempo_of(const std::vector<double>& clicks) {
  return 60.0 * static_cast<double>(clicks.size() - 1) / (clicks.back() - clicks.front());
}

/// So many clicks are one bar or several.
int beats_in_bar(std::size_t clicks) {
  for (const int beats : {4, 3, 5, 7})
    if (clicks % static_cast<std::size_t>(beats) == 0) return beats;
  return 4;
}

HeardBeat beat_of(const HeardLine& line, const RecordingOptions& options) {
  HeardBeat beat;
  if (options.beats == RecordingBeats::known_elsewhere) return beat;
  if (!line.clicks.empty()) {
    beat.is_known = true;
    beat.bpm = options.tempo_bpm.value_or(tempo_of(line.clicks));
    beat.zero_seconds = line.clicks.front();
    beat.beats_a_bar = beats_in_bar(line.clicks.size());
  } else if (options.tempo_bpm) {
    beat.is_known = true;
    beat.bpm = *options.tempo_bpm;
    const double beat_seconds = 60.0 / beat.bpm;
    const BeatPhase phase = beat_phase(line.notes, beat_seconds);
    const double first = line.notes.front().onset_seconds;
    // The first note is in the first beat, and on it where it is hardly early.
    const auto just_before = [&](double seconds) {
      constexpr double early = 0.2;
      return seconds - beat_seconds * std::ceil((seconds - first) / beat_seconds - early);
    };
    beat.zero_seconds = just_before(phase.likelier);
    beat.other_zero_seconds = just_before(phase.other);
    beat.lead = phase.lead;
  }
  return beat;
}

std::string message(std::initializer_list<unsigned> bytes) {
  std::string text;
  for (const unsigned byte : bytes) text += static_cast<char>(byte);
  return text;
}

std::string midi_of(const HeardLine& line, const HeardBeat& beat) {
  OutgoingSmf file{.ticks_per_quarter = ticks_a_quarter, .tracks = {{}, {}}, .end_ticks = 0};
  if (beat.is_known) {
    constexpr double microseconds_a_minute = 60e6;
    const auto quarter = static_cast<unsigned>(std::lround(microseconds_a_minute / beat.bpm));
    file.tracks[0].push_back({0, message({0xFF, 0x51, 3, quarter >> 16U, (quarter >> 8U) & 0xFFU, quarter & 0xFFU})});
    file.tracks[0].push_back({0, message({0xFF, 0x58, 4, static_cast<unsigned>(beat.beats_a_bar), 2, 24, 8})});
  }
  file.tracks[1].push_back({0, message({0xFF, 0x03, 9}) + "Recording"});
  const auto ticks = [&](double seconds) {
    const double quarters = (seconds - beat.zero_seconds) * beat.bpm / 60.0;
    return static_cast<std::uint32_t>(std::max(0.0, std::round(quarters * ticks_a_quarter)));
  };
  for (std::size_t i = 0; i < line.notes.size(); ++i) {
    const HeardNote& note = line.notes[i];
    const auto pitch = static_cast<unsigned>(note.midi);
    // So sure is it that the note is there: whoever opens the file sees doubt as softness.
    const auto velocity = static_cast<unsigned>(std::lround(30.0F + 70.0F * std::clamp(note.sure, 0.0F, 1.0F)));
    const std::uint32_t onset = ticks(note.onset_seconds);
    std::uint32_t end = std::max(onset + 1, ticks(note.end_seconds));
    if (i + 1 < line.notes.size()) end = std::min(end, std::max(onset + 1, ticks(line.notes[i + 1].onset_seconds)));
    file.tracks[1].push_back({onset, message({0x90, pitch, velocity})});
    file.tracks[1].push_back({end, message({0x80, pitch, 64})});
    file.end_ticks = std::max(file.end_ticks, end);
  }
  return save_smf(file);
}

void refuse_what_cannot_be_heard(const HeardLine& line, const std::string& name, long long frames, int rate) {
  const auto refuse = [&](const std::string& text) { throw ReadError(place_of(name), text); };
  if (line.levels.seconds <= 0.0) refuse("the recording has no sound in it; it may have broken off, record it again");
  const double promised = static_cast<double>(frames) / rate;
  constexpr double tolerated_seconds = 0.1;
  if (line.levels.seconds + tolerated_seconds < promised)
    refuse(fmt::format("the file breaks off after {:.1f} of {:.1f} s; copy it again", line.levels.seconds, promised));
  if (line.levels.peak < silent_peak)
    refuse("the recording is silent, or nearly; record it louder, the telephone a metre from the instrument");
  if (line.notes.empty() || line.pitched_share < least_pitched_share)
    refuse(fmt::format("only {:.0f} % of what sounds has one clear pitch: noise, or several notes at a time; {}",
                       100.0 * line.pitched_share, how_to_record));
}

std::vector<Warning> doubts(const HeardLine& line, const std::string& name, const RecordingOptions& options) {
  std::vector<Warning> warnings;
  if (line.levels.clipped_share > clipped_share)
    warnings.push_back(
        {place_of(name), fmt::format("{:.1f} % of the sound is cut off at full scale, which makes pitches "
                                     "unsure; record it from further away, or at a lower level",
                                     100.0 * line.levels.clipped_share)});
  if (line.pitched_share < doubtful_pitched_share)
    warnings.push_back({place_of(name), fmt::format("only {:.0f} % of what sounds has one clear pitch; {}",
                                                    100.0 * line.pitched_share, how_to_record)});
  if (options.tempo_bpm && !line.clicks.empty()) {
    constexpr double within = 0.05;
    const double counted = tempo_of(line.clicks);
    if (std::abs(counted - *options.tempo_bpm) > within * counted)
      warnings.push_back(
          {place_of(name), fmt::format("the count-in is at quarter note = {:.0f}, not {:.0f}; --tempo was "
                                       "taken",
                                       counted, *options.tempo_bpm)});
  }
  return warnings;
}

Recording recording_of(SoundFile& file, const RecordingOptions& options) {
  Recording recording;
  recording.line = heard_line(file, options.range);
  refuse_what_cannot_be_heard(recording.line, file.name(), file.frames(), file.rate());
  const HeardBeat beat = beat_of(recording.line, options);
  recording.has_beats = beat.is_known;
  recording.midi = midi_of(recording.line, beat);
  if (beat.other_zero_seconds) {
    HeardBeat other = beat;
    other.zero_seconds = *beat.other_zero_seconds;
    recording.half_beat_off = {midi_of(recording.line, other), beat.lead};
  }
  recording.warnings = doubts(recording.line, file.name(), options);
  return recording;
}

}  // namespace

Recording read_recording(const std::filesystem::path& file, const RecordingOptions& options) {
  SoundFile sound(file);
  return recording_of(sound, options);
}

Recording parse_recording(std::string_view bytes, std::string_view file_name, const RecordingOptions& options) {
  SoundFile sound(bytes, file_name);
  return recording_of(sound, options);
}

}  // namespace insideline::io
