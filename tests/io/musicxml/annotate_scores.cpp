// Annotates scores for the comparison with the reference reader: for each line "SCORE<tab>RESULT" on standard
// input every note of the solo gets a degree and a colour, every four notes a bracket, and
// every bar a chord where the score has none. Prints for each line
// "annotated", "refused" where the score cannot be read, or what went wrong: the notes must be read back as they were.
#include "io/file_bytes.hpp"
#include "io/musicxml/annotated_score.hpp"
#include "io/musicxml/container_writer.hpp"
#include "io/read_solo.hpp"

#include <array>
#include <exception>
#include <fstream>
#include <iostream>
#include <string>

namespace {

using insideline::Note;
using insideline::Solo;
using insideline::io::ScoreInk;

/// A chord that no score has, a beat into every bar.
void add_chords(ScoreInk& ink, const Solo& solo) {
  insideline::MusicxmlChord chord;
  chord.root = {insideline::Step::e, -1};
  chord.kind = "minor-seventh";
  chord.bass = insideline::NoteName{insideline::Step::a, 0};
  for (const insideline::Bar& bar : solo.bars) {
    ink.bars.push_back(bar.onset);
    if (bar.length > insideline::Beats(1)) ink.chords.push_back({bar.onset + 1, chord});
  }
}

ScoreInk ink_for(const Solo& solo) {
  const std::vector<Note>& notes = solo.notes;
  constexpr std::array<const char*, 4> texts = {"1", "(b9)", "[13]\xC2\xBB", "#5!"};
  constexpr std::array<const char*, 4> colours = {"#0072B2", "#CC79A7", "#D55E00", ""};
  ScoreInk ink;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    ink.notes.push_back({notes[i].place.element, texts.at(i % texts.size()), colours.at(i % colours.size()),
                         notes[i].onset, notes[i].place.position});
    if (i % texts.size() == 0) ink.brackets.push_back({{}, "up 1-3-5"});
    ink.brackets.back().elements.push_back(notes[i].place.element);
  }
  add_chords(ink, solo);
  return ink;
}

bool same_notes(const std::vector<Note>& a, const std::vector<Note>& b) {
  const auto same = [](const Note& x, const Note& y) {
    return x.onset == y.onset && x.duration == y.duration && x.pitch == y.pitch && x.written == y.written &&
           x.grace == y.grace && x.place == y.place;
  };
  return a.size() == b.size() && std::equal(a.begin(), a.end(), b.begin(), same);
}

std::string annotate(const std::string& score, const std::string& result) {
  const std::string bytes = insideline::io::read_solo_bytes(score);
  Solo solo;
  try {
    solo = insideline::io::parse_solo(bytes, score).solo;
  } catch (const insideline::io::ReadError&) {
    return "refused";
  }
  std::string written = insideline::io::annotated_score(bytes, score, ink_for(solo));
  if (!same_notes(solo.notes, insideline::io::parse_solo(written, result).solo.notes))
    return "other notes are read back";
  if (score.ends_with(".mxl")) written = insideline::io::packed_score(written, bytes, score);
  std::ofstream(result, std::ios::binary) << written;
  return "annotated";
}

}  // namespace

int main() {
  try {
    for (std::string line; std::getline(std::cin, line);) {
      const std::size_t tab = line.find('\t');
      std::cout << annotate(line.substr(0, tab), line.substr(tab + 1)) << std::endl;
    }
  } catch (const std::exception& error) {
    std::cerr << error.what() << '\n';
    return 1;
  }
  return 0;
}
