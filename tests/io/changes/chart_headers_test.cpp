#include "io/changes/chart_headers.hpp"

#include "io/changes/changes_file.hpp"
#include "tests/io/changes/chart_shorthand.hpp"

#include <string>

#include <catch2/catch.hpp>

using Catch::Matchers::Contains;
using insideline::Beats;
using insideline::Key;
using insideline::Meter;
using insideline::Mode;
using insideline::io::parse_changes;
using insideline::io::parse_chart;
using insideline::io::parse_key;
using insideline::io::parse_meter;
using insideline::tests::chart_error;

TEST_CASE("a key is read as players write it") {
  const auto [text, fifths, minor] = GENERATE(table<std::string, int, bool>({
      {"C", 0, false},
      {"Eb", -3, false},
      {"E♭", -3, false},
      {"eb major", -3, false},
      {"F# minor", 3, true},
      {"Cm", -3, true},
      {"C-", -3, true},
      {"CM", 0, false},
      {"Bb maj", -2, false},
      {"a min", 0, true},
      {"Cb", -7, false},
      {"C#", 7, false},
      {"G♯ minor", 5, true},
      {"Ebm", -6, true},
      {"B", 5, false},
      {"bb", -2, false},
  }));
  CHECK(parse_key(text) == Key{fifths, minor});
}

TEST_CASE("a mode is read with its own signature, and major and minor by their old names") {
  CHECK(parse_key("D dorian") == Key{0, false, Mode::dorian});
  CHECK(parse_key("Bb Mixolydian") == Key{-3, false, Mode::mixolydian});
  CHECK(parse_key("F lydian") == Key{0, false, Mode::lydian});
  CHECK(parse_key("E phrygian") == Key{0, false, Mode::phrygian});
  CHECK(parse_key("B locrian") == Key{0, false, Mode::locrian});
  CHECK(parse_key("A aeolian") == Key{0, true});
  CHECK(parse_key("Eb ionian") == Key{-3, false});
  CHECK(to_string(parse_key("F# dorian").value()) == "F# dorian");
}

TEST_CASE("what is no key, or has more than seven signs, is not read as one") {
  const auto text =
      GENERATE(as<std::string>{}, "", "H", "G#", "Fb", "Db minor", "C doric", "Fb dorian", "Eb7", "E#", "3 flats");
  CHECK_FALSE(parse_key(text).has_value());
}

TEST_CASE("a meter is read, also as the signs for common and cut time") {
  CHECK(parse_meter("4/4") == Meter{4, 4});
  CHECK(parse_meter("3 / 4") == Meter{3, 4});
  CHECK(parse_meter("12/8") == Meter{12, 8});
  CHECK(parse_meter("C") == Meter{4, 4});
  CHECK(parse_meter("C|") == Meter{2, 2});
  const auto text =
      GENERATE(as<std::string>{}, "", "4", "4/", "/4", "4/3", "0/4", "-3/4", "33/4", "4/4/4", "999999999999/4");
  CHECK_FALSE(parse_meter(text).has_value());
}

TEST_CASE("headers say what the chart is") {
  const auto changes =
      parse_changes("Title: Lantern Street: slow\nkey: Eb\nmeter: 3/4\npickup: 1\n| Ebmaj7 |\n", "a.changes");
  CHECK(changes.title == "Lantern Street: slow");
  CHECK(changes.key == Key{-3, false});
  CHECK(changes.meter == Meter{3, 4});
  CHECK(changes.pickup == Beats(1));
  CHECK(form_length(changes) == Beats(3));
}

TEST_CASE("a header without its colon is read where its value leaves no doubt, and is else a title") {
  const auto chart = [](const std::string& line) { return parse_chart(line + "\n[A] | C |\n[B] | F |", "a.changes"); };
  CHECK(chart("form AAB").changes.bars.size() == 3);
  CHECK(chart("Meter 3/4").changes.meter == insideline::Meter{3, 4});
  CHECK(chart("tempo 120").tempo_bpm == 120.0);
  CHECK(chart("key Eb").changes.key == insideline::Key{-3, false});
  CHECK(chart("tempo 120").changes.title.empty());
  CHECK(chart("Key West").changes.title == "Key West");
  CHECK(chart("Time Goes By").changes.title == "Time Goes By");
  CHECK(chart("Form and Shape").changes.title == "Form and Shape");
  CHECK(chart("Tempo di Valse").changes.title == "Tempo di Valse");
}

TEST_CASE("a pickup counts the beats of the meter") {
  CHECK(parse_changes("meter: 6/8\npickup: 2\n| C |", "a.changes").pickup == Beats(1));
  CHECK(parse_changes("pickup: 1.5\n| C |", "a.changes").pickup == Beats(3, 2));
  CHECK(parse_changes("| C |", "a.changes").pickup == std::nullopt);
}

TEST_CASE("a chart without headers is in 4/4 and claims no meter and no key") {
  const auto changes = parse_changes("| C |", "a.changes");
  CHECK(form_length(changes) == Beats(4));
  CHECK_FALSE(changes.meter.has_value());
  CHECK_FALSE(changes.key.has_value());
  CHECK(changes.title.empty());
}

TEST_CASE("a header that cannot be used is an error with its place and a remedy") {
  const auto [text, message] = GENERATE(table<std::string, std::string>({
      {"title: x\nColour: blue\n| C |",
       "2:1: the header \"colour\" is not known; known are title, key, meter, pickup, form, tempo, composer"},
      {"tempo: fast\n| C |", "1:8: \"fast\" is not a tempo; write quarter notes a minute, from 20 to 400"},
      {"tempo: 1000\n| C |", "1:8: \"1000\" is not a tempo; write quarter notes a minute, from 20 to 400"},
      {"key: H\n| C |", "1:6: \"H\" is not a key; write one like Eb, F# minor, Cm or D dorian, of at most seven signs"},
      {"meter: four\n| C |", "1:8: \"four\" is not a meter; write one like 4/4, 3/4 or 6/8"},
      {"pickup: -1\n| C |", "1:9: \"-1\" is not a pickup; write the beats before bar 1, like 1 or 1/2"},
      {"title:\n| C |", "1:1: the title is missing after \"title:\""},
      {"key: C\nkey: F\n| C |", "2:6: the key is given twice; keep one of them"},
      {"meter: 4/4\n| C | F |\n| G |\nmeter: 3/4\n",
       "4:1: no bar follows this meter, after bar 3; a meter stands before the bars that are in it"},
      {"meter: 3/4\nmeter: 4/4\n| C |", "2:8: the meter is given twice; keep one of them"},
      {"| C |\nmeter: five\n| F |", "2:8: \"five\" is not a meter; write one like 4/4, 3/4 or 6/8"},
      {"form: ,\n[A] | C |", "1:7: the form names no section; write one like A A B A"},
  }));
  CHECK(chart_error(text) == message);
}
