#include "analyzer/measures/voice_leading.hpp"

#include "analyzer/harmony/chord_symbol.hpp"

#include <cstdlib>
#include <string>

#include <catch2/catch.hpp>

using insideline::least_motion;
using insideline::shortest_way;

namespace {

insideline::Chord chord(const std::string& symbol) { return insideline::parse_chord_symbol(symbol).value().value(); }

}  // namespace

TEST_CASE("the shorter way round is at most a tritone, and a tritone goes up") {
  const auto [from, to, way] = GENERATE(table<int, int, int>(
      {{0, 0, 0}, {0, 1, 1}, {1, 0, -1}, {11, 0, 1}, {0, 11, -1}, {0, 6, 6}, {6, 0, 6}, {2, 9, -5}, {9, 2, 5}}));
  CHECK(shortest_way(from, to) == way);
}

TEST_CASE("a triad finds its way into a seventh chord, one tone of which stays free") {
  const auto leading = least_motion(chord("C"), chord("G7"));
  CHECK(leading.semitones == 2);  // C to B, E to F, G stays
  CHECK(leading.pairings == 1);
  CHECK(leading.moves.size() == 3);
  CHECK(least_motion(chord("C"), chord("Am7")).semitones == 0);
}

TEST_CASE("the way back costs the same") {
  for (const char* a : {"C", "Dm7", "G7", "F#dim7", "Eb6", "C9"})
    for (const char* b : {"Am", "E7", "Bbmaj7", "Bm7b5", "D13"}) {
      const auto there = least_motion(chord(a), chord(b));
      const auto back = least_motion(chord(b), chord(a));
      CHECK(there.semitones == back.semitones);
      CHECK(there.pairings == back.pairings);
      int sum = 0;
      for (const auto& move : back.moves) sum += std::abs(move.semitones);
      CHECK(sum == back.semitones);
    }
}

TEST_CASE("the moves stand in the order of the first chord") {
  const auto leading = least_motion(chord("G7"), chord("C"));
  REQUIRE(leading.moves.size() == 3);
  CHECK(to_string(leading.moves.front().from) == "G");
  CHECK(leading.moves[1].semitones == 1);  // B to C
}
