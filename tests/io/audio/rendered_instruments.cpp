// Every instrument of the table as a sound font has it: a demo piece is sounded by FluidSynth, heard, and held against
// what was sounded. A note counts as heard with its very pitch and at most a tenth of a second away.
#include "analyzer/drills/instruments.hpp"
#include "io/audio/recording.hpp"
#include "io/midi/smf_writer.hpp"
#include "io/read_solo.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <fstream>
#include <random>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace {

using insideline::Note;
using insideline::io::HeardNote;

constexpr int skipped = 77;

struct Sounded {
  double onset_seconds = 0.0;
  double end_seconds = 0.0;
  int midi = 60;
};

struct Rendering {
  std::string font;
  double tempo_bpm = 120.0;
  int cents = 0;
  std::string room = "0";  ///< 1 for FluidSynth's reverberation
  int bars = 8;
};

/// The General MIDI program of an instrument, and what is asked of it: of a hundred notes so many heard, and of those
/// heard so many right. Low where the sound font's own notes begin late or run into each other (DEVELOPERS.md).
struct Voice {
  std::string_view name;
  unsigned program;
  int least_recall = 97;
  int least_precision = 97;
};
constexpr std::array voices{
    Voice{"flute", 73, 95, 97},
    Voice{"oboe", 68, 82, 90},
    Voice{"clarinet", 71},
    Voice{"bass-clarinet", 71},
    Voice{"bassoon", 70},
    Voice{"soprano-sax", 64},
    Voice{"alto-sax", 65},
    Voice{"tenor-sax", 66},
    Voice{"baritone-sax", 67},
    Voice{"trumpet", 56, 90, 90},
    Voice{"flugelhorn", 56, 90, 90},
    Voice{"horn", 60, 70, 90},
    Voice{"trombone", 57},
    Voice{"bass-trombone", 57},
    Voice{"euphonium", 58},
    Voice{"tuba", 58},
    Voice{"violin", 40},
    Voice{"viola", 41},
    Voice{"cello", 42, 90, 97},
    Voice{"double-bass", 32, 34, 55},
    Voice{"guitar", 26},
    Voice{"vibraphone", 11, 80, 95},
    Voice{"piano", 0},
    Voice{"voice", 53},
};

/// The notes of the first bars in the middle of the range, a little uneven, the same every time.
std::vector<Sounded> notes_of(const insideline::Solo& solo, const insideline::PitchRange& range, const Rendering& how) {
  const auto [low, high] =
      std::ranges::minmax_element(solo.notes, {}, [](const Note& note) { return midi_number(note.pitch); });
  const double off = 0.5 * (range.lowest + range.highest - midi_number(low->pitch) - midi_number(high->pitch));
  const int moved = 12 * static_cast<int>(std::lround(off / 12.0));
  std::uint32_t state = 7;
  std::vector<Sounded> sounded;
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

std::string bytes_of(std::initializer_list<unsigned> values) {
  std::string bytes;
  for (const unsigned value : values) bytes += static_cast<char>(value);
  return bytes;
}

std::string midi_of(const std::vector<Sounded>& notes, unsigned program, int cents) {
  insideline::io::OutgoingSmf file{.ticks_per_quarter = 960, .tracks = {{}}, .end_ticks = 0};
  auto& track = file.tracks.front();
  const auto fine = static_cast<unsigned>(8'192 + cents * 8'192 / 100);  // registered parameter 1 of MIDI 1.0
  track.push_back({0, bytes_of({0xC0, program})});
  for (const auto& [control, value] : {std::pair{101U, 0U}, {100U, 1U}, {6U, fine >> 7U}, {38U, fine & 0x7FU}})
    track.push_back({0, bytes_of({0xB0, control, value})});
  constexpr double ticks_a_second = 1'920.0;
  unsigned turn = 0;
  for (const Sounded& note : notes) {
    const auto pitch = static_cast<unsigned>(note.midi);
    const auto end = static_cast<std::uint32_t>(note.end_seconds * ticks_a_second);
    track.push_back({static_cast<std::uint32_t>(note.onset_seconds * ticks_a_second),
                     bytes_of({0x90, pitch, 70 + (turn * 17) % 45})});
    track.push_back({end, bytes_of({0x80, pitch, 64})});
    ++turn;
    file.end_ticks = end + 960;
  }
  return save_smf(file);
}

struct Score {
  std::size_t sounded = 0;
  std::size_t heard = 0;
  std::size_t right = 0;
  std::size_t unsure = 0;
  double median_ms = 0.0;
  double late_ms = 0.0;  ///< nine in ten are not later
};

Score score_of(std::span<const Sounded> sounded, std::span<const HeardNote> heard) {
  constexpr double tolerance = 0.1;
  Score score{.sounded = sounded.size(), .heard = heard.size()};
  std::vector<double> delays;
  std::vector<bool> taken(heard.size());
  for (const Sounded& note : sounded) {
    std::size_t best = heard.size();
    for (std::size_t i = 0; i < heard.size(); ++i) {
      const double off = std::abs(heard[i].onset_seconds - note.onset_seconds);
      if (taken[i] || heard[i].midi != note.midi || off > tolerance) continue;
      if (best == heard.size() || off < std::abs(heard[best].onset_seconds - note.onset_seconds)) best = i;
    }
    if (best == heard.size()) continue;
    taken[best] = true;
    delays.push_back(1'000.0 * (heard[best].onset_seconds - note.onset_seconds));
  }
  for (const HeardNote& note : heard) score.unsure += is_sure(note) ? 0U : 1U;
  score.right = delays.size();
  std::ranges::sort(delays);
  if (!delays.empty()) {
    score.median_ms = delays[delays.size() / 2];
    score.late_ms = delays[delays.size() * 9 / 10];
  }
  return score;
}

bool is_heard_well(const Voice& voice, const insideline::Solo& solo, const Rendering& how,
                   const std::filesystem::path& folder) {
  const auto instrument = insideline::instrument_named(voice.name);
  const auto range = sounding_range(instrument.value());
  const std::vector<Sounded> notes = notes_of(solo, range, how);
  const std::string midi = (folder / "line.mid").string();
  const std::string wav = (folder / "line.wav").string();
  std::ofstream(midi, std::ios::binary) << midi_of(notes, voice.program, how.cents);
  const std::string command = fmt::format(
      "fluidsynth -ni -q -C 0 -R {} -g 0.6 -r 44100 -F '{}' '{}' '{}' >/dev/null 2>&1", how.room, wav, how.font, midi);
  if (std::system(command.c_str()) != 0) throw std::runtime_error("FluidSynth failed: " + command);
  insideline::io::SoundFile file{std::filesystem::path(wav)};
  const auto line = insideline::io::heard_line(file, {range.lowest, range.highest});
  const Score score = score_of(notes, line.notes);
  const double recall = 100.0 * static_cast<double>(score.right) / static_cast<double>(score.sounded);
  const double precision =
      100.0 * static_cast<double>(score.right) / static_cast<double>(std::max<std::size_t>(1, score.heard));
  const bool good = recall >= voice.least_recall && precision >= voice.least_precision;
  fmt::print(
      "{:<14} recall {:5.1f} precision {:5.1f}  later by {:3.0f} ms, nine in ten by {:3.0f} at most; unsure {}; "
      "tuning {:+.0f} cents; pitched {:.2f}{}\n",
      voice.name, recall, precision, score.median_ms, score.late_ms, score.unsure, line.tuning_cents,
      line.pitched_share, good ? "" : "   BELOW ITS BOUND");
  return good;
}

int run(std::span<char*> arguments) {
  if (arguments.size() != 7) return fmt::print(stderr, "PIECE FONT TEMPO CENTS ROOM BARS\n"), 2;
  const Rendering how{arguments[2], std::stod(arguments[3]), std::stoi(arguments[4]), arguments[5],
                      std::stoi(arguments[6])};
  if (std::system("fluidsynth --version >/dev/null 2>&1") != 0 || !std::filesystem::exists(how.font)) {
    fmt::print("{} instruments not heard: FluidSynth or {} is absent\n", voices.size(), how.font);
    return skipped;
  }
  const insideline::Solo solo = insideline::io::read_solo(arguments[1]).solo;
  const auto folder = std::filesystem::temp_directory_path() / fmt::format("rendered-{}", std::random_device{}());
  std::filesystem::create_directory(folder);
  int below = 0;
  for (const Voice& voice : voices) below += is_heard_well(voice, solo, how, folder) ? 0 : 1;
  std::filesystem::remove_all(folder);
  return below == 0 ? 0 : 1;
}

}  // namespace

int main(int count, char** arguments) {
  try {
    return run(std::span(arguments, static_cast<std::size_t>(count)));
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 1;
  }
}
