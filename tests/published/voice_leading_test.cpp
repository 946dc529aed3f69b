// Least voice leading between two chords, every voice moving to a tone of its own: the
// measure of Tymoczko, The Geometry of Musical Chords, Science 313 (2006) 72-74. The
// values were found by trying all pairings. The moves stand in the order of the first chord's tones.
#include "analyzer/measures/voice_leading.hpp"

#include "analyzer/harmony/chord_symbol.hpp"

#include <sstream>
#include <string>

#include <catch2/catch.hpp>

TEST_CASE("the least motion between two chords") {
  const auto [from, to, semitones, moves] = GENERATE(table<std::string, std::string, int, std::string>({
      {"Dm7", "G7", 3, "0 0 -2 -1"},       {"G7", "Cmaj7", 3, "0 0 -2 -1"},     {"Cmaj7", "Fmaj7", 4, "0 0 -2 -2"},
      {"Cmaj7", "A7", 3, "1 0 0 -2"},      {"A7", "Dm7", 5, "0 -1 -2 -2"},      {"Cmaj7", "Am7", 2, "0 0 0 -2"},
      {"Am7", "Dm7", 4, "0 0 -2 -2"},      {"Em7", "A7", 3, "0 0 -2 -1"},       {"C7", "F7", 4, "0 -1 -2 -1"},
      {"F7", "C7", 4, "2 1 0 1"},          {"G7", "F7", 4, "2 1 1 0"},          {"Dm7b5", "G7", 2, "0 0 -1 -1"},
      {"G7", "CmMaj7", 4, "0 0 -2 -2"},    {"G7", "Cm7", 5, "0 -1 -2 -2"},      {"Db7", "Cmaj7", 3, "-1 -1 -1 0"},
      {"Dm7", "Db7", 3, "-1 0 -1 -1"},     {"Cmaj7", "Cm7", 2, "0 -1 0 -1"},    {"Cm7", "F7", 3, "0 0 -2 -1"},
      {"Fm7", "Bb7", 3, "0 0 -2 -1"},      {"Bb7", "Cmaj7", 5, "1 -2 -1 -1"},   {"F7", "F#dim7", 1, "1 0 0 0"},
      {"F#dim7", "C7", 3, "1 1 0 1"},      {"Bm7b5", "E7", 2, "0 0 -1 -1"},     {"E7", "Am7", 5, "0 -1 -2 -2"},
      {"G7", "C6", 5, "0 -2 -2 -1"},       {"G7sus4", "G7", 1, "0 -1 0 0"},     {"C7", "Cdim7", 3, "0 -1 -1 -1"},
      {"Cmaj7", "Ebmaj7", 4, "2 -1 0 -1"}, {"Cmaj7", "Abmaj7", 4, "0 -1 0 -3"}, {"B7", "Gmaj7", 3, "0 -1 0 -2"},
      {"D7", "Gmaj7", 3, "0 0 -2 -1"},     {"Gmaj7", "Bb7", 3, "1 -1 0 -1"},    {"Bb7", "Ebmaj7", 3, "0 0 -2 -1"},
      {"C7", "F#7", 2, "1 0 -1 0"},        {"Cdim7", "Ebdim7", 0, "0 0 0 0"},
  }));
  const auto leading = insideline::least_motion(insideline::parse_chord_symbol(from).value().value(),
                                                insideline::parse_chord_symbol(to).value().value());
  std::ostringstream found;
  for (const auto& move : leading.moves) found << (found.str().empty() ? "" : " ") << move.semitones;
  INFO(from << " to " << to);
  CHECK(leading.semitones == semitones);
  CHECK(leading.pairings == 1);
  CHECK(found.str() == moves);
}

TEST_CASE("G7 and Cm6 have three ways that are equally short") {
  const auto leading = insideline::least_motion(insideline::parse_chord_symbol("G7").value().value(),
                                                insideline::parse_chord_symbol("Cm6").value().value());
  CHECK(leading.semitones == 6);
  CHECK(leading.pairings == 3);
}
