#include "tests/support/analysed.hpp"

#include "tests/support/melody.hpp"

#include <array>
#include <cstdint>
#include <random>
#include <sstream>

namespace insideline::tests {

AnalysedLine analysed(const Solo& solo, const Harmony& harmony, const Settings& settings) {
  AnalysedLine line{.solo = solo, .analysis = analyze(solo, harmony, settings), .heard = {}};
  line.heard = hear(solo, harmony, line.analysis.labels, line.analysis.phrases);
  return line;
}

AnalysedLine analysed(std::string_view chords, std::string_view melody, const Meter& meter, const Beats& start_beat) {
  const Solo solo = solo_from(melody, meter, start_beat);
  return analysed(solo, harmony_from(chords, solo));
}

std::string in_lengths_of(std::string_view length, std::string_view notes) {
  std::istringstream words{std::string(notes)};
  std::string melody;
  for (std::string word; words >> word;) melody += (melody.empty() ? "" : " ") + word + ':' + std::string(length);
  return melody;
}

Solo transposed(const Solo& solo, const Interval& by) {
  Solo moved = solo;
  for (Note& note : moved.notes) note.pitch = insideline::transposed(note.pitch, by);
  return moved;
}

Harmony transposed(const Harmony& harmony, const Interval& by) {
  Harmony moved = harmony;
  for (SoundingChord& sounding : moved.chords) sounding.chord = insideline::transposed(sounding.chord, by);
  return moved;
}

RandomLine random_line(unsigned seed, int bars) {
  constexpr std::array<const char*, 12> pitches = {"C4",  "Db4", "D4",  "Eb4", "E4",  "F4",
                                                   "F#4", "G4",  "Ab4", "A4",  "Bb4", "B4"};
  constexpr std::array<const char*, 8> chords = {"Cmaj7", "Dm7", "G7", "Am7", "F6", "E7", "Bm7b5", "Ab7"};
  constexpr std::array<const char*, 6> lengths = {"1/2", "1/2", "1/2", "1", "1/4", "3/2"};
  std::mt19937 random(seed);  // the engine is the same everywhere, the standard distributions are not
  const auto one_of = [&](const auto& choices) { return std::string(choices.at(random() % choices.size())); };
  std::string melody = "C4:1/2";
  for (Beats length(1, 2); length < Beats(4 * bars - 2);) {
    const std::string note_length = one_of(lengths);
    const bool rest = random() % 10 == 0;
    melody += ' ' + (rest ? "r" : one_of(pitches)) + ':' + note_length;
    length += *parse_beats(note_length);
  }
  std::string changes;
  for (int bar = 0; bar < bars; ++bar) changes += one_of(chords) + '@' + std::to_string(4 * bar) + ' ';
  RandomLine line;
  line.solo = solo_from(melody);
  line.harmony = harmony_from(changes, line.solo);
  return line;
}

}  // namespace insideline::tests
