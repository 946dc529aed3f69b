#include "io/audio/heard_line.hpp"
#include "tests/support/tones.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>
#include <vector>

using insideline::tests::Tone;

namespace {

std::vector<int> semitones(int lowest, int highest) {
  std::vector<int> scale;
  for (int midi = lowest; midi <= highest; ++midi) scale.push_back(midi);
  return scale;
}

/// Every semitone of the range, one after the other, each so many cents high.
std::vector<int> scale_heard(int lowest, int highest, int partials, double cents) {
  std::vector<Tone> tones = insideline::tests::line_of(semitones(lowest, highest), 0.35, 0.32);
  for (Tone& tone : tones) {
    tone.partials = partials;
    tone.midi += cents / 100.0;
  }
  const std::string bytes = insideline::tests::wav_of(insideline::tests::sound_of(tones));
  insideline::io::SoundFile file(bytes, "scale.wav");
  std::vector<int> midi;
  for (const auto& note : insideline::io::heard_line(file, {lowest, highest}).notes) midi.push_back(note.midi);
  return midi;
}

}  // namespace

// Below G1 the window in which attacks are looked for holds less than a period, and tones of many partials are
// heard as struck again: the pitch is right, the count is not.
TEST_CASE("every semitone from the low B of a bass to the high G of a flute is heard as what it is") {
  constexpr int b0 = 23;
  constexpr int g1 = 31;
  constexpr int g7 = 103;
  const auto [partials, cents] = GENERATE(table<int, double>({{8, 0.0}, {1, 0.0}, {8, 30.0}}));
  CAPTURE(partials, cents);
  std::vector<int> heard = scale_heard(b0, g7, partials, cents);
  const auto once = std::find(heard.begin(), heard.end(), g1);
  CHECK(std::vector<int>(once, heard.end()) == semitones(g1, g7));
  heard.erase(std::unique(heard.begin(), heard.end()), heard.end());
  CHECK(heard == semitones(b0, g7));
}
