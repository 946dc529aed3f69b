// The notes that we hear against the pitches of a general tracker, aubio's yinfft (P. M. Brossier, Automatic annotation
// of musical audio for interactive applications, Queen Mary University of London 2006, chapter 3), moment by moment:
// every instrument of the table as a sound font has it, and tones whose pitch is known. Of the moments in which both
// hear a pitch, counted are those in which the two are at most 50 cents apart.
#include "io/read_solo.hpp"
#include "tests/support/own_folder.hpp"
#include "tests/support/rendered_line.hpp"
#include "tests/support/tones.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <cstdio>
#include <cstdlib>
#include <exception>
#include <fstream>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace {

using insideline::io::HeardLine;
using insideline::io::HeardNote;
using insideline::tests::OwnFolder;
using insideline::tests::Rendering;
using insideline::tests::SoundedNote;
using insideline::tests::Voice;

constexpr int skipped = 77;

struct Frame {
  double seconds = 0.0;  ///< of its middle
  double midi = 0.0;
};

/// The pitches that aubio hears. `window` and `apart` count samples at 44,100 a second.
std::vector<Frame> second_opinion(const std::string& wav) {
  constexpr int rate = 44'100;
  constexpr int window = 4'096;  // two periods of the lowest note of a bass
  constexpr int apart = 256;
  const OwnFolder folder;
  const std::string sound = folder.write("line.wav", wav).string();
  const std::string table = folder.file("pitches.txt");
  const std::string command =
      fmt::format("aubiopitch -p yinfft -u midi -s -50 -r {} -B {} -H {} -i '{}' >'{}' 2>/dev/null", rate, window,
                  apart, sound, table);
  if (std::system(command.c_str()) != 0) throw std::runtime_error("aubiopitch failed: " + command);
  std::vector<Frame> frames;
  std::ifstream lines(table);
  // A row stands at the beginning of the samples that came last into the window.
  constexpr double to_middle = (apart - window / 2.0) / rate;
  for (Frame frame; lines >> frame.seconds >> frame.midi;)
    if (frame.midi > 0.0) frames.push_back({frame.seconds + to_middle, frame.midi});
  return frames;
}

struct Agreement {
  std::size_t both = 0;        ///< moments in which both hear a pitch
  std::size_t close = 0;       ///< at most 50 cents apart
  std::size_t ours_right = 0;  ///< of the others: we hear what was sounded
  std::size_t theirs_right = 0;
};

constexpr double close_semitones = 0.5;

/// Without the first and last moments of a note, in which a window holds two pitches.
Agreement agreement(const HeardLine& line, std::span<const Frame> frames, std::span<const SoundedNote> sounded) {
  constexpr double edge_seconds = 0.05;
  const double tuning = line.tuning_cents / 100.0;
  Agreement result;
  for (const HeardNote& note : line.notes)
    for (const Frame& frame : frames) {
      const double now = frame.seconds;
      if (now < note.onset_seconds + edge_seconds || now > note.end_seconds - edge_seconds) continue;
      ++result.both;
      if (std::abs(frame.midi - note.midi - tuning) <= close_semitones) {
        ++result.close;
        continue;
      }
      const auto known = std::ranges::find_if(sounded, [&](const SoundedNote& each) {
        return each.onset_seconds + edge_seconds <= now && now <= each.end_seconds - edge_seconds;
      });
      if (known == sounded.end()) continue;
      result.ours_right += known->midi == note.midi ? 1U : 0U;
      result.theirs_right += std::abs(frame.midi - known->midi - tuning) <= close_semitones ? 1U : 0U;
    }
  return result;
}

/// In so many moments of a hundred the two agree at least, and aubio alone hears what was sounded at most. Other than
/// usual where one of them takes a partial for the note.
struct Bounds {
  std::string_view name;
  double least_close = 94.0;
  double most_theirs = 1.0;
};
constexpr std::array unusual{Bounds{"made tones", 80.0}, Bounds{"flute", 90.0}, Bounds{"soprano-sax", 75.0},
                             Bounds{"oboe", 60.0}, Bounds{"double-bass", 80.0, 15.0}};

Bounds bounds_of(std::string_view name) {
  const auto* const found = std::ranges::find(unusual, name, &Bounds::name);
  return found == unusual.end() ? Bounds{name} : *found;
}

bool agrees(std::string_view name, const HeardLine& line, const std::string& wav,
            std::span<const SoundedNote> sounded) {
  const Agreement found = agreement(line, second_opinion(wav), sounded);
  const auto percent = [&](std::size_t count) {
    return 100.0 * static_cast<double>(count) / static_cast<double>(std::max<std::size_t>(1, found.both));
  };
  const Bounds bounds = bounds_of(name);
  const bool good =
      found.both > 0 && percent(found.close) >= bounds.least_close && percent(found.theirs_right) <= bounds.most_theirs;
  fmt::print(
      "{:<14} {:5.1f} % of {} moments within 50 cents (at least {:.0f}); we alone hear what was sounded in {:.1f} %, "
      "aubio alone in {:.1f} % (at most {:.0f}){}\n",
      name, percent(found.close), found.both, bounds.least_close, percent(found.ours_right),
      percent(found.theirs_right), bounds.most_theirs, good ? "" : "   BEYOND ITS BOUNDS");
  return good;
}

/// What a sound font plays is known to a few cents, what we make exactly.
bool tones_agree() {
  std::vector<int> scale;
  for (int midi = 36; midi <= 96; ++midi) scale.push_back(midi);
  const auto tones = insideline::tests::line_of(scale, 0.4, 0.35);
  std::vector<SoundedNote> sounded;
  for (const auto& tone : tones)
    sounded.push_back({tone.onset_seconds, tone.onset_seconds + tone.seconds, static_cast<int>(tone.midi)});
  const std::string wav = insideline::tests::wav_of(insideline::tests::sound_of(tones));
  return agrees("made tones", insideline::tests::heard_in(wav, {35, 97}), wav, sounded);
}

int run(std::span<char*> arguments) {
  if (arguments.size() != 4) return fmt::print(stderr, "PIECE FONT BARS\n"), 2;
  const Rendering how{.font = arguments[2], .bars = std::stoi(arguments[3])};
  if (std::system("aubiopitch -h >/dev/null 2>&1") != 0) {
    fmt::print("skipped: aubiopitch, of Debian's aubio-tools, is absent\n");
    return skipped;
  }
  int below = tones_agree() ? 0 : 1;
  if (const auto absent = insideline::tests::absent_for_rendering(how.font)) {
    fmt::print("{} instruments not compared: {}\n", insideline::tests::voices().size(), *absent);
    return below == 0 ? skipped : 1;
  }
  const insideline::Solo solo = insideline::io::read_solo(arguments[1]).solo;
  for (const Voice& voice : insideline::tests::voices()) {
    const auto range = range_of(voice);
    const auto notes = sounded_notes(solo, range, how);
    const std::string wav = rendered(notes, voice.program, how);
    below += agrees(voice.name, insideline::tests::heard_in(wav, range), wav, notes) ? 0 : 1;
  }
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
