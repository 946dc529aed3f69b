#include "analyzer/harmony/chord_from_notes.hpp"

#include <catch2/catch.hpp>

#include <sstream>

namespace insideline::tests {
namespace {

using Text = const char*;

std::string named(std::string_view text) {
  std::vector<NoteName> names;
  std::istringstream words{std::string(text)};
  for (std::string word; words >> word;) names.push_back(parse_note_name(word).value());
  const auto chord = chord_spelled_by(names);
  return chord ? chord->symbol : "";
}

}  // namespace

TEST_CASE("notes name the simplest chord that they spell") {
  const auto [notes, symbol] = GENERATE(table<Text, Text>({
      {"C E G", "C"},
      {"G C E", "C"},
      {"E G B D", "Em7"},  // 3 5 7 9 of Cmaj7
      {"G B D E", "Em7"},  // in any inversion
      {"D F Ab C", "Dm7b5"},
      {"B D F Ab", "Bdim7"},
      {"D F Ab B", "Bdim7"},  // the spelling tells the root: D diminished would have a C flat
      {"D F Ab Cb", "Ddim7"},
      {"C E G#", "Caug"},
      {"A C E G", "Am7"},
      {"C E G A", "Am7"},
      {"C F G", "Csus4"},
      {"C E G B D", "Cmaj9"},
      {"C G", "C5"},
      {"D F G# C", "Dm7b5"},  // by sound, where the spelling makes no chord
      {"C E G C E", "C"},
      {"C Db D", ""},
      {"C", ""},
      {"", ""},
  }));
  INFO(notes);
  CHECK(named(notes) == symbol);
}

}  // namespace insideline::tests
