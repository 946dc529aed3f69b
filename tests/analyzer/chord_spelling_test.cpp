#include "analyzer/chord_spelling.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "tests/support/drilled.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::Accidentals;
using insideline::Changes;
using insideline::Chord;
using insideline::Interval;
using insideline::Key;
using insideline::moved_plainly;
using insideline::parse_chord_symbol;
using insideline::plainly_spelled;
using insideline::spelled_with;

namespace {

Chord chord_named(const std::string& symbol) { return parse_chord_symbol(symbol).value().value(); }

std::string in(Accidentals accidentals, const std::string& symbol) {
  return spelled_with(chord_named(symbol), accidentals).symbol;
}

}  // namespace

TEST_CASE("a chord is written with flats or with sharps, and a natural root stays") {
  CHECK(in(Accidentals::flats, "C#m7") == "Dbm7");
  CHECK(in(Accidentals::flats, "E#m7b5") == "Fm7b5");
  CHECK(in(Accidentals::flats, "Bb7") == "Bb7");
  CHECK(in(Accidentals::flats, "D/F#") == "D/F#");
  CHECK(in(Accidentals::flats, "F#/A#") == "Gb/Bb");
  CHECK(in(Accidentals::sharps, "Dbmaj7") == "C#maj7");
  CHECK(in(Accidentals::sharps, "Cb7") == "B7");
  CHECK(in(Accidentals::sharps, "G7") == "G7");
}

TEST_CASE("a key has another name only where seven signs are enough") {
  CHECK(spelled_with(Key{6}, Accidentals::flats) == Key{-6});
  CHECK(spelled_with(Key{-5}, Accidentals::sharps) == Key{7});
  CHECK(spelled_with(Key{5, true}, Accidentals::flats) == Key{-7, true});
  CHECK(spelled_with(Key{4}, Accidentals::flats) == Key{4});
  CHECK(spelled_with(Key{-4}, Accidentals::sharps) == Key{-4});
}

TEST_CASE("a root with a double accidental gets its plain name, also in the bass, and nothing else does") {
  CHECK(plainly_spelled(chord_named("Ebb7")).symbol == "D7");
  CHECK(plainly_spelled(chord_named("F##dim7")).symbol == "Gdim7");
  CHECK(plainly_spelled(chord_named("Cbmaj7")).symbol == "Cbmaj7");
  const Chord over_bass = plainly_spelled(chord_named("Gb7/Bbb"));
  CHECK(to_string(over_bass.bass.value()) == "A");
  CHECK(to_string(over_bass.root) == "Gb");
}

TEST_CASE("a chord a half step above the tonic is plain in every key") {
  Changes changes = insideline::tests::chart("Db7 | Cmaj7");
  changes.key = Key{};
  const Changes moved = moved_plainly(changes, Interval{1, 1});
  CHECK(moved.key == Key{-5});
  CHECK(moved.spans.front().chord->symbol == "D7");
  CHECK(moved.spans.back().chord->symbol == "Dbmaj7");
}
