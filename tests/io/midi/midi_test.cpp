#include "io/midi/midi.hpp"

#include "tests/io/midi/midi_shorthand.hpp"
#include "tests/io/midi/smf_bytes.hpp"

#include <catch2/catch.hpp>

#include <string>

using namespace std::string_literals;
using insideline::Beats;
using insideline::Meter;
using insideline::io::Damage;
using insideline::io::ReadError;
using insideline::io::ReadOptions;
using insideline::tests::bytes_from;
using insideline::tests::midi_file;
using insideline::tests::notes_of;
using insideline::tests::read_midi;
using insideline::tests::smf_probes;
using insideline::tests::warnings_of;

namespace {

ReadOptions track(const std::string& name) {
  ReadOptions options;
  options.part = name;
  return options;
}

}  // namespace

TEST_CASE("the worked format 0 example of the standard: three instruments on three channels") {
  // Standard MIDI Files 1.0 (RP-001), "Program Fragments and Example MIDI Files".
  const std::string file = bytes_from(
      "4D546864 00000006 0000 0001 0060 4D54726B 0000003B 00FF580404021808 00FF510307A120 00C005 00C12E 00C246 "
      "00923060 003C60 60914340 60904C20 8140823040 003C40 00814340 00804C40 00FF2F00");
  CHECK(notes_of(read_midi(file, track("channel 1")).solo) == "E5@2+2");
  CHECK(notes_of(read_midi(file, track("2")).solo) == "G4@1+3");
  const auto chord = read_midi(file, track("channel 3"));
  CHECK(notes_of(chord.solo) == "C4@0+4");
  CHECK_THAT(warnings_of(chord), Catch::Contains("1 chord in the solo: only its top note was kept"));
  CHECK(chord.solo.tempo_bpm == Approx(120.0));
}

TEST_CASE("the worked format 1 example of the standard gives the same notes") {
  const std::string file = bytes_from(
      "4D546864 00000006 0001 0004 0060 4D54726B 00000014 00FF580404021808 00FF510307A120 8300FF2F00 "
      "4D54726B 00000010 00C005 8140904C20 81404C00 00FF2F00 4D54726B 0000000F 00C12E 60914340 82204300 00FF2F00 "
      "4D54726B 00000015 00C246 00923060 003C60 83003000 003C00 00FF2F00");
  CHECK(notes_of(read_midi(file, track("2")).solo) == "E5@2+2");
  CHECK(notes_of(read_midi(file, track("3")).solo) == "G4@1+3");
  const auto first = read_midi(file);
  CHECK(notes_of(first.solo) == "E5@2+2");
  CHECK_THAT(warnings_of(first), Catch::Contains("the solo is track 2, the first of 2 with a single melodic line"));
}

TEST_CASE("the solo is the first single line that is no bass, and the warning says so") {
  const auto read = read_midi(midi_file({{"Bass", "C2@0+480 G2@480+480", 1, {}},
                                         {"Piano", "C4@0+960 E4@0+960 G4@0+960", 2, {}},
                                         {"Horn", "C5@0+480 D5@480+480", 3, {}}}));
  CHECK(read.solo.part == "Horn");
  CHECK(notes_of(read.solo) == "C5@0+1 D5@1+1");
  CHECK(warnings_of(read) == "the solo is track 4 (Horn), the only one with a single melodic line\n");
}

TEST_CASE("a bass is the solo where there is no other single line") {
  const std::string chords = "C4@0+960 E4@0+960 G4@0+960";
  const auto alone = read_midi(midi_file({{"Chords", chords, 2, {}}, {"Double bass", "C2@0+480 G2@480+480", 1, {}}}));
  CHECK(alone.solo.part == "Double bass");
  CHECK(warnings_of(alone) == "the solo is track 3 (Double bass), the only one with a single melodic line\n");
  const auto two = read_midi(midi_file({{"Bass", "C2@0+480", 1, {}}, {"Bass two", "D2@0+480", 2, {}}}));
  CHECK_THAT(warnings_of(two), Catch::Contains("the solo is track 2 (Bass), the first of 2 with a single"));
}

TEST_CASE("a track is chosen by name, whatever the case, or by number; another is an error that lists them") {
  const std::string file = midi_file({{"Horn", "C5@0+480", 1, {}}, {"Flute", "D6@0+480", 2, {}}});
  CHECK(read_midi(file, track("fLUTE")).solo.part == "Flute");
  CHECK(read_midi(file, track("3")).solo.part == "Flute");
  CHECK_THROWS_AS(read_midi(file, track("Oboe")), ReadError);
  CHECK_THROWS_WITH(read_midi(file, track("Oboe")),
                    "take.mid: it has no track 'Oboe' with notes; there is track 2 (Horn); track 3 (Flute)");
}

TEST_CASE("a name is UTF-8, or else taken for Latin-1") {
  const auto name_of = [](const std::string& name) {
    return read_midi(midi_file({{name, "C5@0+480 D5@480+480", 1, {}}})).solo.part;
  };
  CHECK(name_of("Fl\xC3\xB6te") == "Fl\u00F6te");
  CHECK(name_of("Fl\xF6te") == "Fl\u00F6te");
  CHECK(name_of("in\xC0\xAFout") == "in\u00C0\u00AFout");                      // a slash written too long
  CHECK(name_of("half \xED\xA0\xBC pair") == "half \u00ED\u00A0\u00BC pair");  // half a character of UTF-16
}

TEST_CASE("percussion is left out, and a file of nothing else is refused") {
  CHECK(notes_of(read_midi(midi_file({{"Drums", "C2@0+480", 10, {}}, {"Horn", "C5@0+480", 1, {}}})).solo) == "C5@0+1");
  CHECK_THROWS_WITH(read_midi(midi_file({{"Drums", "C2@0+480", 10, {}}})), Catch::Contains("percussion only"));
  CHECK_THROWS_WITH(read_midi(midi_file({{"Nobody", "", 1, {}}})), Catch::Contains("it has no notes"));
}

TEST_CASE("legato overlaps are trimmed and chords keep their top note") {
  const auto read =
      read_midi(midi_file({{"", "C5@0+500 D5@480+480 E4@960+480 G4@960+480 C5@960+480 D5@1440+480", 1, {}}}));
  CHECK(notes_of(read.solo) == "C5@0+1 D5@1+1 C5@2+1 D5@3+1");
  CHECK(warnings_of(read).starts_with("1 chord in the solo: only its top note was kept\n"));
}

TEST_CASE("notes held under the line are left out and counted") {
  const auto read = read_midi(midi_file({{"", "C5@0+960 E3@240+480 D5@960+480", 1, {}}}));
  CHECK(notes_of(read.solo) == "C5@0+2 D5@2+1");
  CHECK_THAT(warnings_of(read), Catch::Contains("1 note under the line was left out"));
}

TEST_CASE("a note that nothing ends is held to the next one, and told") {
  const auto read = read_midi(midi_file({{"", "G5@1440+480", 1, {"00 90 48 50", "83 60 90 4A 50", "87 40 90 4C 50"}}}));
  CHECK(notes_of(read.solo) == "C5@0+1 D5@1+1 E5@2+1 G5@3+1");
  CHECK(warnings_of(read) == "3 notes are never ended; each was held to the next note\n");
}

TEST_CASE("pitch bends are told and the struck pitch is kept") {
  const auto read = read_midi(midi_file({{"", "C5@0+480 D5@480+480", 1, {"81 70 E0 00 60", "83 60 E0 00 40"}}}));
  CHECK(notes_of(read.solo) == "C5@0+1 D5@1+1");
  CHECK(warnings_of(read) == "1 note is bent by the pitch wheel; the pitch that was struck was kept\n");
}

TEST_CASE("a written part is moved to sounding pitch by --transpose, its key with it") {
  ReadOptions options;
  options.transpose = -14;
  const auto read = read_midi(midi_file({{"Tenor", "D5@0+480 E5@480+480", 1, {"00 FF590202 00"}}}), options);
  CHECK(notes_of(read.solo) == "C4@0+1 D4@1+1");
  CHECK(to_string(read.solo.notes[0].written) == "D5");
  CHECK(read.solo.keys.at(0).key.fifths == 0);
  options.transpose = -96;
  CHECK_THROWS_WITH(read_midi(midi_file({{"", "C4@0+480", 1, {}}}), options), Catch::Contains("out of the range"));
}

TEST_CASE("meters make the bars; a short first one is a pickup") {
  const auto read = read_midi(
      midi_file({{"", "G4@0+480 C5@480+480 D5@1920+480", 1, {"00 FF5804 01021808", "83 60 FF5804 03021808"}}}));
  CHECK(notes_of(read.solo) == "G4@-1+1 C5@0+1 D5@3+1");
  CHECK(read.solo.bars.at(0).number == 0);
  CHECK(read.solo.bars.at(0).length == Beats(1));
  CHECK(read.solo.bars.at(1).meter == Meter{3, 4});
  CHECK(read.solo.notes.at(2).place.bar == "2");
}

TEST_CASE("bar 1 may be set, and earlier bars are then left out") {
  ReadOptions options;
  options.bar_one = Beats(4);
  const auto read = read_midi(midi_file({{"", "G4@1680+240 C5@1920+480", 1, {}}}), options);
  CHECK(notes_of(read.solo) == "G4@-1/2+1/2 C5@0+1");
  CHECK(read.solo.bars.at(0).number == 0);
  options.bar_one = Beats(20);
  CHECK_THROWS_WITH(read_midi(midi_file({{"", "G4@0+240", 1, {}}}), options),
                    Catch::Contains("more than a bar before bar 1"));
}

TEST_CASE("a file on the grid passes unchanged: triplets, sixteenths, fives, and a grace note before its note") {
  const std::string notes =
      "C5@0+160 D5@160+160 E5@320+160 F5@480+120 G5@600+120 A5@720+240 "
      "C5@960+96 D5@1056+96 E5@1152+96 F5@1248+96 G5@1344+96 A5@1393+47 G5@1440+480";
  const auto read = read_midi(midi_file({{"", notes, 1, {}}}));
  CHECK(notes_of(read.solo) ==
        "C5@0+1/3 D5@1/3+1/3 E5@2/3+1/3 F5@1+1/4 G5@5/4+1/4 A5@3/2+1/2 C5@2+1/5 D5@11/5+1/5 "
        "E5@12/5+1/5 F5@13/5+1/5 G5@14/5+1/5 (A5@3) G5@3+1");
  CHECK(read.solo.performed.empty());
}

TEST_CASE("notes that a program shortened for playback get their written length back") {
  const auto read = read_midi(midi_file({{"", "C5@0+228 D5@240+228 E5@480+456 F5@1440+455", 1, {}}}));
  CHECK(notes_of(read.solo) == "C5@0+1/2 D5@1/2+1/2 E5@1+1 F5@3+1");
}

TEST_CASE("refusals name the byte and the remedy, and salvage follows it") {
  for (const auto& probe : smf_probes()) {
    if (probe.name != "b14_trunc_track_event") continue;
    CHECK_THROWS_WITH(read_midi(probe.bytes),
                      "take.mid: byte 26: the track ends inside an event; export it again, or "
                      "read what is left of it with --salvage");
    ReadOptions options;
    options.damage = Damage::salvaged;
    const auto read = read_midi(probe.bytes, options);
    CHECK(notes_of(read.solo) == "C4@0+1");
    CHECK_THAT(warnings_of(read), Catch::Contains("byte 26: the track ends inside an event"));
  }
}

TEST_CASE("no probe file does more than throw a ReadError") {
  for (const auto& probe : smf_probes()) {
    INFO(probe.name);
    for (const Damage damage : {Damage::refused, Damage::salvaged}) {
      ReadOptions options;
      options.damage = damage;
      const std::string& expected = damage == Damage::refused ? probe.strict : probe.salvaged;
      if (expected.size() > 2 || expected == "0")
        CHECK_THROWS_AS(read_midi(probe.bytes, options), ReadError);
      else
        CHECK(read_midi(probe.bytes, options).solo.notes.size() <= std::stoul(expected));
    }
  }
}

TEST_CASE("film frames are read with tapped beats") {
  const std::string file =
      bytes_from("4D546864 00000006 0000 0001 E728 4D54726B 0000000D 00903C40 8768 803C40 00FF2F00");
  CHECK_THROWS_WITH(read_midi(file), Catch::Contains("SMPTE") && Catch::Contains("--beats"));
  ReadOptions options;
  options.beats = insideline::io::parse_beats_file("0 1\n0.5 2\n1 3\n1.5 4\n2 1\n", "taps.txt");
  CHECK(notes_of(read_midi(file, options).solo) == "C4@0+2");
}

TEST_CASE("a file that lasts for months is refused, not laid out") {
  const std::string file =
      bytes_from("4D546864 00000006 0000 0001 0018 4D54726B 0000000F FFFFFF7E 903C40 01 803C40 00FF2F00");
  CHECK_THROWS_WITH(read_midi(file), Catch::Contains("more than 50,000 bars"));
}
