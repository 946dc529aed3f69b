#include "analyzer/enclosures.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using insideline::Figure;
using insideline::find_enclosures;
using insideline::Note;
using insideline::NoteLabel;
using insideline::Solo;

namespace {

struct EnclosedLine {
  Solo solo;
  std::vector<NoteLabel> labels;
};

/// "e2 . .": a note labelled as enclosing note 2, then two others; "g" is a grace note.
EnclosedLine line_of(const std::vector<std::string>& signs) {
  EnclosedLine line;
  for (const std::string& sign : signs) {
    Note note;
    note.grace = sign == "g";
    line.solo.notes.push_back(note);
    NoteLabel label;
    if (sign.front() == 'e') {
      label.figure = Figure::enclosure;
      label.resolves_to = static_cast<std::size_t>(sign[1] - '0');
    }
    line.labels.push_back(label);
  }
  return line;
}

std::string figures_of(const std::vector<std::string>& signs) {
  const EnclosedLine line = line_of(signs);
  std::string text;
  for (const auto& enclosure : find_enclosures(line.solo, line.labels)) {
    for (const std::size_t note : enclosure.around) text += std::to_string(note);
    text += ">" + std::to_string(enclosure.target) + " ";
  }
  return text;
}

}  // namespace

TEST_CASE("two or three foreign notes around a target are one enclosure") {
  CHECK(figures_of({".", "e3", "e3", "."}) == "12>3 ");
  CHECK(figures_of({"e3", "e3", "e3", "."}) == "012>3 ");
  CHECK(figures_of({"e2", "e2", ".", "e5", "e5", "."}) == "01>2 34>5 ");
}

TEST_CASE("where one side is a tone of the chord, it belongs to the enclosure all the same") {
  CHECK(figures_of({"e2", ".", "."}) == "01>2 ");
  CHECK(figures_of({".", "e2", "."}) == "01>2 ");
}

TEST_CASE("a grace note between them is no side of an enclosure, and a line without any has none") {
  CHECK(figures_of({"e3", "g", "e3", "."}) == "02>3 ");
  CHECK(figures_of({".", "g", "e3", "."}) == "02>3 ");
  CHECK(figures_of({".", "."}).empty());
}
