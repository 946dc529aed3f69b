#include "analyzer/harmony/chord_symbol.hpp"

#include "tests/support/chord_reading.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {

using Text = const char*;

TEST_CASE("a chord symbol is read in every handwriting") {
  const auto [symbol, root, degrees] = GENERATE(table<Text, Text, Text>({
      // roots
      {"Bb7", "Bb", "1 3 5 b7"},
      {"B\u266D7", "Bb", "1 3 5 b7"},
      {"F\u266Fm", "F#", "1 b3 5"},
      {"Cbb7", "Cbb", "1 3 5 b7"},
      {"F##m7", "F##", "1 b3 5 b7"},
      {"D\U0001D12Bmaj7", "Dbb", "1 3 5 7"},
      {"C#9", "C#", "1 3 5 b7 9"},
      {"Cb9", "Cb", "1 3 5 b7 9"},
      {"C(b9)", "C", "1 3 5 b9"},
      {"C7(b9)", "C", "1 3 5 b7 b9"},
      {"C#5", "C#", "1 5"},
      // minus and plus
      {"C-9", "C", "1 b3 5 b7 9"},
      {"C7-9", "C", "1 3 5 b7 b9"},
      {"C-7-5", "C", "1 b3 b5 b7"},
      {"C-5", "C", "1 3 b5"},
      {"C\u22127", "C", "1 b3 5 b7"},
      {"C\u20147", "C", "1 b3 5 b7"},  // an em dash
      {"C+9", "C", "1 3 #5 b7 9"},
      {"C7+9", "C", "1 3 5 b7 #9"},
      {"C9+", "C", "1 3 #5 b7 9"},
      {"C7(5+)", "C", "1 3 #5 b7"},
      // accidentals after their numbers, digits that stand together
      {"C79b", "C", "1 3 5 b7 b9"},
      {"C79b13b", "C", "1 3 5 b7 b9 b13"},
      {"C79b13", "C", "1 3 5 b7 9 b13"},
      {"Cm75b", "C", "1 b3 b5 b7"},
      {"C75b9b", "C", "1 3 b5 b7 b9"},
      {"C79", "C", "1 3 5 b7 9"},
      {"Cm7911", "C", "1 b3 5 b7 9 11"},
      {"C7913", "C", "1 3 5 b7 9 13"},
      {"C713", "C", "1 3 5 b7 13"},
      // brackets, commas, spaces, slashes
      {"C7(b9,#11)", "C", "1 3 5 b7 b9 #11"},
      {"C7[b9 #11]", "C", "1 3 5 b7 b9 #11"},
      {"C7 (b9)(b13)", "C", "1 3 5 b7 b9 b13"},
      {"C7/b9", "C", "1 3 5 b7 b9"},
      {"C7/9/13", "C", "1 3 5 b7 9 13"},
      {"C6/9", "C", "1 3 5 6 9"},
      {"C maj7", "C", "1 3 5 7"},
      {"  Cm7 ", "C", "1 b3 5 b7"},
      // the number alone against the number in brackets
      {"C13", "C", "1 3 5 b7 9 13"},
      {"C7(13)", "C", "1 3 5 b7 13"},
      {"C6(9)", "C", "1 3 5 6 9"},
      {"Cm7(11)", "C", "1 b3 5 b7 11"},
      // major sevenths
      {"Cj7", "C", "1 3 5 7"},
      {"C7M", "C", "1 3 5 7"},
      {"CMA7", "C", "1 3 5 7"},
      {"C\u25B3", "C", "1 3 5 7"},
      {"C\u25B3#5", "C", "1 3 #5 7"},
      {"C#7", "C#", "1 3 5 b7"},
      {"Cm#7", "C", "1 b3 5 7"},
      {"Cm\u266E7", "C", "1 b3 5 7"},
      {"Cm(maj9)", "C", "1 b3 5 7 9"},
      {"Cm/M7", "C", "1 b3 5 7"},
      {"Cm7M", "C", "1 b3 5 7"},
      {"C6maj7", "C", "1 3 5 7 13"},
      // diminished and half-diminished
      {"C\u00B0", "C", "1 b3 b5"},
      {"C\u00B07", "C", "1 b3 b5 bb7"},
      {"C\u00B07(maj7)", "C", "1 b3 b5 bb7 7"},
      {"C\u00B0maj7", "C", "1 b3 b5 7"},
      {"C\u00F8", "C", "1 b3 b5 b7"},
      {"C\u00F811", "C", "1 b3 b5 b7 9 11"},
      {"Chalfdim7", "C", "1 b3 b5 b7"},
      // elevenths and thirteenths
      {"C11", "C", "1 5 b7 9 11"},
      {"Cmaj11", "C", "1 5 7 9 11"},
      {"Cm11", "C", "1 b3 5 b7 9 11"},
      {"C11#11", "C", "1 3 5 b7 9 #11"},
      {"C9add11", "C", "1 3 5 b7 9 11"},
      {"C13#9", "C", "1 3 5 b7 #9 13"},
      {"C7b13", "C", "1 3 5 b7 b13"},
      {"C7b6", "C", "1 3 5 b7 b13"},
      {"C7b10", "C", "1 3 5 b7 #9"},
      {"C7#4", "C", "1 3 5 b7 #11"},
      // sus, add, omit
      {"C2", "C", "1 3 5 9"},
      {"C4", "C", "1 4 5"},
      {"Csus9", "C", "1 4 5 b7 9"},
      {"C7sus24", "C", "1 2 4 5 b7"},
      {"C7sus4add3", "C", "1 3 5 b7 11"},
      {"Cm7sus", "C", "1 4 5 b7"},
      {"Csus#4", "C", "1 #4 5"},
      {"CMadd9", "C", "1 3 5 9"},
      {"Cmadd9", "C", "1 b3 5 9"},
      {"C(add9,#11)", "C", "1 3 5 9 #11"},
      {"C7(no 5th)", "C", "1 3 b7"},
      {"C9omit3,5", "C", "1 b7 9"},
      {"C13no11", "C", "1 3 5 b7 9 13"},
      {"Caddb3", "C", "1 b3 3 5"},
      {"Cdom7", "C", "1 3 5 b7"},
      {"C7th", "C", "1 3 5 b7"},
      {"C7b5#5", "C", "1 3 b5 #5 b7"},
      {"C7alt(b9,#5)", "C", "1 3 b7"},
      {"C69b9", "C", "1 3 5 6 b9"},
      {"C13+4", "C", "1 3 5 b7 9 #11 13"},
      {"Ch7", "C", "1 b3 b5 b7"},
      // small letters, where the rest leaves no doubt
      {"dm7", "D", "1 b3 5 b7"},
      {"bbmaj7", "Bb", "1 3 5 7"},
      {"f#m7b5", "F#", "1 b3 b5 b7"},
  }));
  INFO(symbol);
  const auto reading = parse_chord_symbol(symbol);
  REQUIRE(reading);
  REQUIRE(reading->has_value());
  CHECK(to_string((*reading)->root) == root);
  CHECK(spelled((*reading)->tones) == degrees);
  CHECK_FALSE((*reading)->bass.has_value());
}

TEST_CASE("the tones of a chord are spelled from its root") {
  const auto [symbol, names] = GENERATE(table<Text, Text>({
      {"C7b9", "C E G Bb Db"},
      {"C7#9", "C E G Bb D#"},
      {"Cdim7", "C Eb Gb Bbb"},
      {"F#7#5", "F# A# C## E"},
      {"Gbm7b5", "Gb Bbb Dbb Fb"},
      {"Cbmaj7", "Cb Eb Gb Bb"},
  }));
  const Chord chord = chord_from(symbol);
  CHECK(note_names(chord, chord.tones) == names);
}

TEST_CASE("after a slash stands any bass note") {
  const auto [symbol, bass] = GENERATE(table<Text, Text>({
      {"C/E", "E"},
      {"D/C", "C"},
      {"C7(b9)/F#", "F#"},
      {"C6/9/G", "G"},
      {"Am7/D\u266D", "Db"},
      {"C/bb", "Bb"},
      {"C7 / Bb", "Bb"},
      {"Cbbm/Ebbb", "Ebbb"},
  }));
  INFO(symbol);
  REQUIRE(chord_from(symbol).bass);
  CHECK(to_string(*chord_from(symbol).bass) == bass);
}

TEST_CASE("a bass that is the root is no bass of its own") { CHECK_FALSE(chord_from("C7/C").bass); }

TEST_CASE("no chord is written in several ways") {
  const Text symbol = GENERATE("N.C.", "NC", "N", "n.c.", "No Chord", " N.C. ");
  const auto reading = parse_chord_symbol(symbol);
  REQUIRE(reading);
  CHECK_FALSE(reading->has_value());
}

TEST_CASE("an unreadable symbol is refused with its place and what was found") {
  const auto [symbol, offset, message] = GENERATE(table<Text, std::size_t, Text>({
      {"", 0, "found nothing where a chord symbol was expected"},
      {"Cmaj7xyz", 5, "found \"x\" where a quality, a number, an alteration or a slash can stand"},
      {"  Cmaj7x", 7, "found \"x\" where a quality, a number, an alteration or a slash can stand"},
      {"C8", 1, "found \"8\" where a quality, a number, an alteration or a slash can stand"},
      {"C7\xff", 2, "found a byte that is not UTF-8 where a quality, a number, an alteration or a slash can stand"},
      {"C\x01", 1, "found a control character where a quality, a number, an alteration or a slash can stand"},
      {"Hm7", 0, "found \"H\" where a root, A to G, was expected"},
      {"Cbbb7", 1, "found more than two accidentals after the root"},
      {"C7b", 2, "found an accidental or sign without the number it belongs to"},
      {"C7b9#", 4, "found an accidental or sign without the number it belongs to"},
      {"C7(5)", 3, "found a number that says nothing here; a third or fifth needs its accidental"},
      {"Cmajj7", 4, "found a second word for the major seventh"},
      {"C99", 2, "found a second 9"},
      {"C77", 2, "found a second seventh"},
      {"Cm5", 2, "found \"5\" after a quality: a power chord is a root and a 5"},
      {"C3", 1, "found 3 where 2, 4, 5, 6, 7, 9, 11 or 13 can stand"},
      {"C7b1", 2, "found 1 where 5, 6, 7, 9, 11 or 13 can stand"},
      {"C7m", 2, "found a quality where only numbers, alterations, sus, add, omit or alt can stand"},
      {"C7(b9", 5, "found the end where a closing bracket was expected"},
      {"C7)", 2, "found a closing bracket that none opens"},
      {"C7()", 2, "found empty brackets"},
      {"C7/", 2, "found a slash without the bass note that follows it"},
      {"D/Cm7", 2, "found more than a bass note after the slash, where only a bass note can stand"},
      {"C7add", 5, "after \"add\" stands the number that is added"},
      {"C7no", 4, "after \"omit\" or \"no\" stands the number that is left out"},
      {"Cmalt", 2, "\"alt\" goes with a dominant seventh chord only"},
      {"C7alt13", 2, "\"alt\" names every altered fifth and ninth and goes with no other note"},
      {"C7altsus", 5, "\"sus\" takes the third, which an altered dominant has"},
      {"Cj", 2, "\"j\" stands for maj only before a number"},
      {"c7", 0, "a small letter as root means minor to some and not to others; write the root as a capital"},
      {"%", 0, "\"%\" repeats the bar before it and is not a chord"},
      {"X", 0, "\"X\" says that the chord is not known"},
      {"C:xx", 2, "\"xx\" is no shorthand of chord labels"},
  }));
  INFO(symbol);
  const auto reading = parse_chord_symbol(symbol);
  REQUIRE_FALSE(reading);
  CHECK(reading.error().offset_bytes == offset);
  CHECK(reading.error().message == message);
  CHECK(reading.error().nearest.size() <= 3);
}

TEST_CASE("a symbol of more than 200 characters is refused at once, a long one that reads is not") {
  const auto refused = parse_chord_symbol("C7" + std::string(9998, '9'));
  REQUIRE_FALSE(refused);
  CHECK(refused.error().offset_bytes == 0);
  CHECK(refused.error().message == "longer than 200 characters, which no chord symbol is");
  CHECK(refused.error().nearest.empty());

  std::string flats = "C7(";
  for (int i = 0; i < 97; ++i) flats += "\u266D9";  // three bytes to a sign: 198 characters, 392 bytes
  CHECK(spelled(chord_from(flats + ")").tones) == "1 3 5 b7 b9");
  CHECK(parse_chord_symbol(flats + "\u266D9)"));  // 200 characters
  CHECK_FALSE(parse_chord_symbol(flats + "\u266D9 )"));
  CHECK_FALSE(parse_chord_symbol(flats + "\u266D9\u266D9)"));
}

}  // namespace insideline::tests
