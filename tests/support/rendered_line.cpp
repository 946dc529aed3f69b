#include "tests/support/rendered_line.hpp"

#include "io/file_bytes.hpp"
#include "io/midi/smf_writer.hpp"
#include "tests/support/own_folder.hpp"
#include "tests/support/tones.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <initializer_list>
#include <stdexcept>
#include <utility>

namespace insideline::tests {
namespace {

constexpr std::array all_voices{
    Voice{"flute", 73},        Voice{"oboe", 68},          Voice{"clarinet", 71},   Voice{"bass-clarinet", 71},
    Voice{"bassoon", 70},      Voice{"soprano-sax", 64},   Voice{"alto-sax", 65},   Voice{"tenor-sax", 66},
    Voice{"baritone-sax", 67}, Voice{"trumpet", 56},       Voice{"flugelhorn", 56}, Voice{"horn", 60},
    Voice{"trombone", 57},     Voice{"bass-trombone", 57}, Voice{"euphonium", 58},  Voice{"tuba", 58},
    Voice{"violin", 40},       Voice{"viola", 41},         Voice{"cello", 42},      Voice{"double-bass", 32},
    Voice{"guitar", 26},       Voice{"vibraphone", 11},    Voice{"piano", 0},       Voice{"voice", 53},
};

std::string midi_bytes(std::initializer_list<unsigned> values) {
  std::string bytes;
  for (const unsigned value : values) bytes += static_cast<char>(value);
  return bytes;
}

std::string line_as_midi(std::span<const SoundedNote> notes, unsigned program, int cents) {
  io::OutgoingSmf file{.ticks_per_quarter = 960, .tracks = {{}}, .end_ticks = 0};
  auto& track = file.tracks.front();
  const auto fine = static_cast<unsigned>(8'192 + cents * 8'192 / 100);  // registered parameter 1 of MIDI 1.0
  track.push_back({0, midi_bytes({0xC0, program})});
  for (const auto& [control, value] : {std::pair{101U, 0U}, {100U, 1U}, {6U, fine >> 7U}, {38U, fine & 0x7FU}})
    track.push_back({0, midi_bytes({0xB0, control, value})});
  constexpr double ticks_a_second = 1'920.0;
  unsigned turn = 0;
  for (const SoundedNote& note : notes) {
    const auto pitch = static_cast<unsigned>(note.midi);
    const auto end = static_cast<std::uint32_t>(note.end_seconds * ticks_a_second);
    track.push_back({static_cast<std::uint32_t>(note.onset_seconds * ticks_a_second),
                     midi_bytes({0x90, pitch, 70 + (turn * 17) % 45})});
    track.push_back({end, midi_bytes({0x80, pitch, 64})});
    ++turn;
    file.end_ticks = end + 960;
  }
  return save_smf(file);
}

/// In one channel, with noise so far below the mean square of the line.
std::string with_noise(const std::string& wav, std::span<const SoundedNote> notes, double below_db) {
  io::SoundFile file(wav, "line.wav");
  const auto channels = static_cast<std::size_t>(file.channels());
  std::vector<float> block(channels * 4'096);
  std::vector<float> sound;
  while (const std::size_t frames = file.read(block))
    for (std::size_t i = 0; i < frames; ++i) sound.push_back(block[i * channels]);
  const auto at = [&](double seconds) {
    return std::min(sound.size(), static_cast<std::size_t>(seconds * file.rate()));
  };
  double squares = 0.0;
  const std::size_t begin = at(notes.front().onset_seconds);
  const std::size_t end = at(notes.back().end_seconds);
  for (std::size_t i = begin; i < end; ++i) squares += static_cast<double>(sound[i]) * static_cast<double>(sound[i]);
  const double level = std::sqrt(squares / static_cast<double>(std::max<std::size_t>(1, end - begin)));
  add_noise(sound, level * std::pow(10.0, -below_db / 20.0));
  return wav_of(sound, file.rate());
}

double percent(std::size_t count, std::size_t of) {
  return 100.0 * static_cast<double>(count) / static_cast<double>(std::max<std::size_t>(1, of));
}

}  // namespace

std::span<const Voice> voices() { return all_voices; }

PitchRange range_of(const Voice& voice) { return sounding_range(instrument_named(voice.name).value()); }

std::optional<std::string> absent_for_rendering(const std::string& font) {
  if (std::system("fluidsynth --version >/dev/null 2>&1") != 0) return "FluidSynth is absent";
  if (!std::filesystem::exists(font)) return font + " is absent";
  return std::nullopt;
}

std::vector<SoundedNote> sounded_notes(const Solo& solo, const PitchRange& range, const Rendering& how) {
  const auto [low, high] =
      std::ranges::minmax_element(solo.notes, {}, [](const Note& note) { return midi_number(note.pitch); });
  const double off = 0.5 * (range.lowest + range.highest - midi_number(low->pitch) - midi_number(high->pitch));
  const int moved = 12 * static_cast<int>(std::lround(off / 12.0));
  std::uint32_t state = 7;
  std::vector<SoundedNote> sounded;
  const double first = to_double(solo.notes.front().onset);
  for (const Note& note : solo.notes) {
    const double onset = to_double(note.onset) - first;
    if (note.grace || onset >= 4.0 * how.bars) continue;
    state = state * 1'664'525U + 1'013'904'223U;
    const double uneven = (static_cast<double>(state >> 8U) / 16'777'216.0 - 0.5) * 0.03;
    int midi = midi_number(note.pitch) + moved;
    while (midi < range.lowest) midi += 12;
    while (midi > range.highest) midi -= 12;
    const double beat = 60.0 / how.tempo_bpm;
    sounded.push_back({1.0 + (onset + uneven) * beat, 1.0 + (onset + to_double(note.duration) - 0.04) * beat, midi});
  }
  for (std::size_t i = 0; i + 1 < sounded.size(); ++i)
    sounded[i].end_seconds = std::min(sounded[i].end_seconds, sounded[i + 1].onset_seconds);
  return sounded;
}

std::string rendered(std::span<const SoundedNote> notes, unsigned program, const Rendering& how) {
  const OwnFolder folder;
  const std::string midi = folder.write("line.mid", line_as_midi(notes, program, how.cents)).string();
  const std::string wav = folder.file("line.wav");
  const std::string command = fmt::format(
      "fluidsynth -ni -q -C 0 -R {} -g 0.6 -r 44100 -F '{}' '{}' '{}' >/dev/null 2>&1", how.room, wav, how.font, midi);
  if (std::system(command.c_str()) != 0) throw std::runtime_error("FluidSynth failed: " + command);
  constexpr std::size_t most_bytes = 1U << 30U;
  const std::string bytes = io::read_bytes(wav, most_bytes);
  return how.noise_db ? with_noise(bytes, notes, *how.noise_db) : bytes;
}

io::HeardLine heard_in(const std::string& wav, const PitchRange& range) {
  io::SoundFile file(wav, "line.wav");
  return io::heard_line(file, {range.lowest, range.highest});
}

double HeardScore::recall() const { return percent(delays_ms.size(), sounded); }
double HeardScore::precision() const { return percent(delays_ms.size(), right.size()); }

HeardScore score_of(std::span<const SoundedNote> sounded, std::span<const io::HeardNote> heard) {
  constexpr double tolerance = 0.1;
  HeardScore score{.sounded = sounded.size(), .right = std::vector<bool>(heard.size()), .delays_ms = {}};
  for (const SoundedNote& note : sounded) {
    std::size_t best = heard.size();
    for (std::size_t i = 0; i < heard.size(); ++i) {
      const double off = std::abs(heard[i].onset_seconds - note.onset_seconds);
      if (score.right[i] || heard[i].midi != note.midi || off > tolerance) continue;
      if (best == heard.size() || off < std::abs(heard[best].onset_seconds - note.onset_seconds)) best = i;
    }
    if (best == heard.size()) continue;
    score.right[best] = true;
    score.delays_ms.push_back(1'000.0 * (heard[best].onset_seconds - note.onset_seconds));
  }
  std::ranges::sort(score.delays_ms);
  return score;
}

}  // namespace insideline::tests
