#include "analyzer/thread.hpp"

#include "tests/support/analysed.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <limits>
#include <string>

#include <catch2/catch.hpp>

using insideline::Thread;
using insideline::tests::analysed;
using insideline::tests::AnalysedLine;

namespace {

std::string pitches_of(const Thread& thread, const AnalysedLine& line) {
  std::string text;
  for (const std::size_t note : thread.notes)
    text += (text.empty() ? "" : " ") + to_string(line.solo.notes[note].pitch);
  return text;
}

Thread only_thread(const AnalysedLine& line) {
  REQUIRE(line.analysis.threads.size() == 1);
  return line.analysis.threads.front();
}

}  // namespace

TEST_CASE("the thread takes the sounded chord tones that lie closest") {
  const auto [chords, melody, thread, semitones] = GENERATE(table<std::string, std::string, std::string, int>({
      {"Dm7@0 G7@4 Cmaj7@8", "D4:1 F4:1 A4:1 C5:1 B4:1 D5:1 F4:1 G4:1 E4:2 C4:2", "F4 F4 E4", 1},
      {"Dm7@0 G7@4 Cmaj7@8", "D4:2 A4:2 G4:2 B4:2 C4:2 E5:2", "A4 B4 E5", 7},
      {"C7@0 F7@4", "C4:2 G4:2 Eb4:2 A4:2", "G4 A4", 2},
      {"C@0 F@4", "D4:4 A4:4", "A4", 0},  // nothing of C is sounded
      {"C@0 F@4", "D4:4 B4:4", "", 0},
      {"C@0 Dm@4", "C4:2 E4:2 D4:4", "C4 D4", 2},      // as near from both sides: the earlier
      {"C@0 Bb@4", "C4:4 D4:2 Bb3:2", "C4 D4", 2},     // as near on both sides: the earlier
      {"C@0 F@4", "C4:2 E4:4 F4:2", "E4 F4", 1},       // E4 is held over F and is no tone of it
      {"C@0 F@4", "G4:4 B4:1 A4:3 A5:1", "G4 A4", 2},  // what follows the last chord is under it still
  }));
  const AnalysedLine line = analysed(chords, melody);
  CHECK(pitches_of(only_thread(line), line) == thread);
  CHECK(only_thread(line).semitones == semitones);
}

TEST_CASE("a tone held over the change is at hand under both chords") {
  const AnalysedLine line = analysed("Dm7@0 G7@4", "A4:2 F4:2 F4~:2 D5:2");
  CHECK(pitches_of(only_thread(line), line) == "F4 F4");
  CHECK(only_thread(line).semitones == 0);
}

TEST_CASE("no thread moves less than the chords allow") {
  // Dm7 to G7 share two tones, G7 to Cmaj7 two as well, but no tone is in all three;
  // D or F is kept into G7, and F falls a half step to E.
  const AnalysedLine line = analysed("Dm7@0 G7@4 Cmaj7@8", "D4:4 B4:4 C4:4");
  CHECK(only_thread(line).least_possible == 1);
  CHECK(only_thread(line).semitones == 20);
  CHECK(only_thread(analysed("Cmaj7@0 Am7@4 Em7@8", "B4:4 A4:4 B4:4")).least_possible == 0);
}

TEST_CASE("a thread is the least of all paths through the sounded tones") {
  for (unsigned seed = 1; seed <= 6; ++seed) {
    const auto random = insideline::tests::random_line(seed, 6);
    const AnalysedLine line = insideline::tests::analysed(random.solo, random.harmony);
    std::vector<std::vector<int>> tones;
    for (const auto& stretch : line.heard.stretches) {
      std::vector<int> here;
      for (const auto& note : line.heard.notes) {
        const auto& written = line.solo.notes[note.note];
        if (written.onset < stretch.end && end_of(written) > stretch.onset &&
            insideline::contains(stretch.tones, note.pitch_class))
          here.push_back(note.midi);
      }
      if (!here.empty()) tones.push_back(here);
    }
    int least = std::numeric_limits<int>::max();
    std::vector<std::size_t> choice(tones.size(), 0);
    for (bool more = true; more;) {
      int motion = 0;
      for (std::size_t i = 1; i < tones.size(); ++i)
        motion += std::abs(tones[i][choice[i]] - tones[i - 1][choice[i - 1]]);
      least = std::min(least, motion);
      more = false;
      for (std::size_t i = 0; i < choice.size() && !more; ++i) {
        choice[i] = (choice[i] + 1) % tones[i].size();
        more = choice[i] != 0;
      }
    }
    CHECK(only_thread(line).semitones == least);
    CHECK(only_thread(line).least_possible <= least);
  }
}

TEST_CASE("each chorus has its thread, and the thread has its level by chance") {
  insideline::Solo solo = insideline::tests::random_line(5, 16).solo;
  insideline::Harmony harmony = insideline::tests::random_line(5, 16).harmony;
  harmony.choruses = 2;
  for (auto& chord : harmony.chords) chord.chorus = chord.onset < insideline::Beats(32) ? 1 : 2;
  const AnalysedLine line = insideline::tests::analysed(solo, harmony);
  REQUIRE(line.analysis.threads.size() == 2);
  CHECK(line.analysis.threads[1].chorus == 2);
  CHECK(line.analysis.threads[0].by_chance.value() > 0.0);
  CHECK_FALSE(only_thread(analysed("C@0", "C4:4 E4:4")).by_chance);  // nothing to turn
}

TEST_CASE("a thread's level by chance is the mean over the changes turned round by whole bars") {
  // The line is the same under each turn; a turn's motion counts a step, and as many steps as the real thread has.
  const std::string melody = "E4:1 G4:1 B4:1 C5:1 A4:2 F4:2 G4:1 D5:1 B4:1 F5:1 E4:1 C5:1 A4:1 D4:1";
  const auto motion_a_step = [&](const std::string& chords) {
    const Thread thread = only_thread(analysed(chords, melody));
    REQUIRE(thread.notes.size() > 1);
    return thread.semitones / static_cast<double>(thread.notes.size() - 1);
  };
  const AnalysedLine line = analysed("C@0 F@4 G7@8 Am@12", melody);
  const double by_turn =
      motion_a_step("F@0 G7@4 Am@8 C@12") + motion_a_step("G7@0 Am@4 C@8 F@12") + motion_a_step("Am@0 C@4 F@8 G7@12");
  const auto steps = static_cast<double>(only_thread(line).notes.size() - 1);
  CHECK(only_thread(line).by_chance.value() == Approx(by_turn / 3 * steps));
  // Two chords a bar, and one that stays over the bar line: under a turn it is one chord again.
  const AnalysedLine halves = analysed("C@0 F@2 F@4 G7@6 Am@8 C@12", melody);
  const double by_turn_of_halves = motion_a_step("F@0 G7@2 Am@4 C@8 F@14") + motion_a_step("Am@0 C@4 F@10 G7@14") +
                                   motion_a_step("C@0 F@6 G7@10 Am@12");
  const auto steps_of_halves = static_cast<double>(only_thread(halves).notes.size() - 1);
  CHECK(only_thread(halves).by_chance.value() == Approx(by_turn_of_halves / 3 * steps_of_halves));
}
