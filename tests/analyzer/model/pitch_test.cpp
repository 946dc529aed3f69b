#include "analyzer/model/pitch.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::Degree;
using insideline::Interval;
using insideline::parse_degree;
using insideline::parse_note_name;
using insideline::parse_pitch;

TEST_CASE("a pitch knows its key on the piano") {
  const auto [name, midi] = GENERATE(table<std::string, int>({{"C4", 60},
                                                              {"A4", 69},
                                                              {"Bb3", 58},
                                                              {"Cb4", 59},
                                                              {"B#3", 60},
                                                              {"F##4", 67},
                                                              {"Bbb3", 57},
                                                              {"C-1", 0},
                                                              {"G9", 127}}));
  CHECK(midi_number(parse_pitch(name).value()) == midi);
  CHECK(to_string(parse_pitch(name).value()) == name);
}

TEST_CASE("a degree is spelled from its root") {
  const auto [root, degree, note] = GENERATE(table<std::string, std::string, std::string>({{"C", "b9", "Db"},
                                                                                           {"C", "#9", "D#"},
                                                                                           {"C", "bb7", "Bbb"},
                                                                                           {"E", "3", "G#"},
                                                                                           {"Bb", "b7", "Ab"},
                                                                                           {"F#", "3", "A#"},
                                                                                           {"Gb", "11", "Cb"},
                                                                                           {"B", "#5", "F##"},
                                                                                           {"Eb", "13", "C"}}));
  CHECK(to_string(note_at(parse_note_name(root).value(), parse_degree(degree).value())) == note);
  CHECK(degree_of(parse_note_name(note).value(), parse_note_name(root).value()) == parse_degree(degree).value());
}

TEST_CASE("F sharp over C is the sharp eleventh and G flat the flat fifth") {
  const auto root = parse_note_name("C").value();
  CHECK(to_string(degree_of(parse_note_name("F#").value(), root)) == "#11");
  CHECK(to_string(degree_of(parse_note_name("Gb").value(), root)) == "b5");
}

TEST_CASE("a B flat tenor part sounds a major ninth lower than it is written") {
  const Interval tenor = insideline::usual_interval(-14);
  CHECK(tenor == Interval{-8, -14});
  CHECK(to_string(transposed(parse_pitch("C5").value(), tenor)) == "Bb3");
  CHECK(to_string(transposed(parse_pitch("Bb3").value(), -tenor)) == "C5");
  CHECK(to_string(transposed(parse_pitch("F#4").value(), tenor)) == "E3");
  CHECK(interval_between(parse_pitch("C5").value(), parse_pitch("Bb3").value()) == tenor);
}

TEST_CASE("what is not a note is not read as one") {
  const auto text = GENERATE(as<std::string>{}, "", "H4", "c4", "C", "C#b4", "Cx4", "4", "C4x");
  CHECK_FALSE(parse_pitch(text).has_value());
}

TEST_CASE("a MIDI number takes the octave of the letter it is written with") {
  CHECK(to_string(insideline::spelled_pitch(59, parse_note_name("Cb").value())) == "Cb4");
  CHECK(to_string(insideline::spelled_pitch(60, parse_note_name("B#").value())) == "B#3");
  CHECK(to_string(insideline::spelled_pitch(0, parse_note_name("C").value())) == "C-1");
}

TEST_CASE("no note is written with three flats or sharps") {
  CHECK(to_string(insideline::writable({{insideline::Step::e, -3}, 5})) == "C#5");
  CHECK(to_string(insideline::writable({{insideline::Step::c, -3}, 4})) == "A3");
  CHECK(to_string(insideline::writable({{insideline::Step::b, 3}, 4})) == "D5");
  CHECK(to_string(insideline::writable({{insideline::Step::e, -2}, 5})) == "Ebb5");
}
