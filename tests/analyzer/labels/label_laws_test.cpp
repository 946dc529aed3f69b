// Laws that hold for every line, tried on random ones.
#include "analyzer/labels/label_notes.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/labels/label_model.hpp"
#include "analyzer/phrases.hpp"
#include "tests/support/label_file.hpp"
#include "tests/support/melody.hpp"

#include <algorithm>
#include <numeric>
#include <string>
#include <vector>

#include <rapidcheck.h>
#include <catch2/catch.hpp>

using insideline::Beats;
using insideline::Harmony;
using insideline::NoteLabel;
using insideline::Solo;

namespace {

struct LawLine {
  Solo solo;
  Harmony harmony;
};

std::vector<NoteLabel> labels_of(const LawLine& line) {
  return insideline::label_notes(line.solo, line.harmony, insideline::find_phrases(line.solo, line.harmony));
}

std::string code_text(const std::vector<NoteLabel>& labels) {
  std::string text;
  for (const NoteLabel& label : labels) text += insideline::tests::code_of(label) + ' ';
  return text;
}

/// Four bars of eighths, quarters, triplets and short rests over chords that change every two or four beats.
LawLine random_line() {
  const auto chord = rc::gen::elementOf(std::vector<std::string>{
      "Cmaj7", "Dm7", "G7", "Am7", "F6", "E7b9", "Bm7b5", "Ab7", "C", "Gm", "F#dim7", "D7sus4", "G7alt", "Bbmaj7"});
  const auto length = rc::gen::elementOf(std::vector<std::string>{"1/2", "1/2", "1/2", "1", "1/4", "1/3", "3/2"});
  const auto pitch = rc::gen::elementOf(std::vector<std::string>{
      "C4", "Db4", "D4", "Eb4", "E4", "F4", "F#4", "G4", "Ab4", "A4", "Bb4", "B4", "C5", "D5", "r", "E5", "G5"});
  std::string melody = "C4:1/2";
  for (int i = 0; i < 24; ++i) melody += ' ' + *pitch + ':' + *length;
  std::string chords;
  for (int onset = 0; onset < 16; onset += 2) chords += *chord + '@' + std::to_string(onset) + ' ';
  LawLine line;
  line.solo = insideline::tests::solo_from(melody);
  line.harmony = insideline::tests::harmony_from(chords, line.solo);
  return line;
}

LawLine transposed(LawLine line, int semitones) {
  const auto by = insideline::usual_interval(semitones);
  for (auto& note : line.solo.notes) note.pitch = transposed(note.pitch, by);
  for (auto& sounding : line.harmony.chords) sounding.chord = transposed(sounding.chord, by);
  return line;
}

LawLine shifted(LawLine line, const Beats& by) {
  for (auto& note : line.solo.notes) note.onset += by;
  for (auto& bar : line.solo.bars) bar.onset += by;
  for (auto& sounding : line.harmony.chords) sounding.onset += by;
  return line;
}

LawLine doubled(LawLine line) {
  for (auto& note : line.solo.notes) {
    note.onset *= 2;
    note.duration *= 2;
  }
  for (auto& bar : line.solo.bars) {
    bar.onset *= 2;
    bar.length *= 2;
    bar.meter.unit /= 2;
  }
  for (auto& sounding : line.harmony.chords) {
    sounding.onset *= 2;
    sounding.duration *= 2;
  }
  return line;
}

}  // namespace

TEST_CASE("transposing line and changes together changes no label") {
  CHECK(rc::check([] {
    const LawLine line = random_line();
    const int semitones = *rc::gen::inRange(-11, 12);
    RC_ASSERT(code_text(labels_of(transposed(line, semitones))) == code_text(labels_of(line)));
  }));
}

TEST_CASE("shifting by whole bars changes no label") {
  CHECK(rc::check([] {
    const LawLine line = random_line();
    RC_ASSERT(code_text(labels_of(shifted(line, 8))) == code_text(labels_of(line)));
  }));
}

TEST_CASE("writing everything twice as long changes no label") {
  CHECK(rc::check([] {
    const LawLine line = random_line();
    RC_ASSERT(code_text(labels_of(doubled(line))) == code_text(labels_of(line)));
  }));
}

TEST_CASE("two bars of rest between two phrases change nothing on either side") {
  CHECK(rc::check([] {
    const LawLine first = random_line();
    const LawLine second = random_line();
    LawLine both = first;
    const Beats end = end_of(first.solo);
    const LawLine later = shifted(second, end + 8);
    both.solo.notes.insert(both.solo.notes.end(), later.solo.notes.begin(), later.solo.notes.end());
    for (int number = 1; number <= 2; ++number)
      both.solo.bars.push_back({.number = both.solo.bars.back().number + 1,
                                .onset = end + Beats(4) * (number - 1),
                                .length = 4,
                                .meter = {}});
    both.solo.bars.insert(both.solo.bars.end(), later.solo.bars.begin(), later.solo.bars.end());
    int stretch = both.harmony.chords.back().stretch;
    for (const auto& sounding : later.harmony.chords) {
      both.harmony.chords.push_back(sounding);
      both.harmony.chords.back().stretch += stretch + 1;
    }
    RC_ASSERT(code_text(labels_of(both)) == code_text(labels_of(first)) + code_text(labels_of(second)));
  }));
}

TEST_CASE("the probabilities of a note add up to one and no alternative is likelier than the label") {
  CHECK(rc::check([] {
    const LawLine line = random_line();
    const auto phrases = insideline::find_phrases(line.solo, line.harmony);
    insideline::for_each_chain(line.solo, line.harmony, phrases, {}, [](const insideline::Chain& chain) {
      const auto weighed = insideline::solve_chain(chain, insideline::Hearing::as_heard);
      for (std::size_t i = 0; i < weighed.size(); ++i) {
        const auto probabilities = weighed[i].probabilities;
        const double sum = std::accumulate(probabilities.begin(), probabilities.end(), 0.0);
        RC_ASSERT(sum > 1.0 - 1e-9);
        RC_ASSERT(sum < 1.0 + 1e-9);
      }
    });
    for (const NoteLabel& label : labels_of(line)) {
      RC_ASSERT(label.confidence <= label.role_probability);
      for (const auto& other : label.alternatives) RC_ASSERT(other.probability <= label.confidence + 1e-8);
    }
  }));
}
