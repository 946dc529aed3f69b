#include "io/midi/joined_channels.hpp"

#include "tests/io/midi/midi_shorthand.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using insideline::io::join_channels;
using insideline::io::MidiNote;
using insideline::io::MidiSong;
using insideline::io::ReadOptions;
using insideline::tests::midi_file;
using insideline::tests::notes_of;
using insideline::tests::read_midi;
using insideline::tests::TrackOfNotes;
using insideline::tests::warnings_of;

namespace {

// D5 and F5 on channel 2, between what channel 1 plays.
const std::vector<std::string> second_string = {"81 70 91 4A 50", "83 60 81 4A 00", "85 50 91 4D 50", "87 40 81 4D 00"};

std::string guitar() { return midi_file({TrackOfNotes{"Guitar", "C5@0+240 E5@480+240", 1, second_string}}); }

std::vector<MidiNote> every_other(std::uint32_t first, std::uint32_t length) {
  return {
      {first, first + length, 60}, {first + 480, first + 480 + length, 62}, {first + 960, first + 960 + length, 64}};
}

std::size_t voices_left(MidiSong song) {
  join_channels(song);
  return song.voices.size();
}

}  // namespace

TEST_CASE("a MIDI guitar with a channel a string is one line, whether or not its track is asked for") {
  const auto read = read_midi(guitar());
  CHECK(notes_of(read.solo) == "C5@0+1/2 D5@1/2+1/2 E5@1+1/2 F5@3/2+1/2");
  CHECK(warnings_of(read) ==
        "the 2 channels of track 2 (Guitar) hardly overlap and were read as one line; --track 'channel 1' reads one "
        "alone\n");
  ReadOptions options;
  options.part = "Guitar";
  CHECK(notes_of(read_midi(guitar(), options).solo) == notes_of(read.solo));
}

TEST_CASE("one string of a MIDI guitar can be asked for") {
  ReadOptions options;
  options.part = "channel 2";
  const auto read = read_midi(guitar(), options);
  CHECK(notes_of(read.solo) == "D5@1/2+1/2 F5@3/2+1/2");
  CHECK(warnings_of(read).empty());
}

TEST_CASE("a keyboard that goes through all channels uses the tenth like the others") {
  const std::vector<std::string> above = {"81 70 99 4A 50", "83 60 89 4A 00", "83 60 9A 4C 50", "85 50 8A 4C 00"};
  CHECK(notes_of(read_midi(midi_file({TrackOfNotes{"Keys", "C5@0+240", 9, above}})).solo) ==
        "C5@0+1/2 D5@1/2+1/2 E5@1+1/2");
}

TEST_CASE("channels that sound together, or have sounds of their own, stay apart") {
  MidiSong song;
  song.voices = {{.track = 1, .channel = 1, .name = "", .program = 25, .notes = every_other(0, 240)},
                 {.track = 1, .channel = 2, .name = "", .program = std::nullopt, .notes = every_other(240, 240)}};
  CHECK(voices_left(song) == 1);
  song.voices[1].program = 33;
  CHECK(voices_left(song) == 2);
  song.voices[1].program = 25;
  song.voices[0].notes = every_other(0, 400);  // rings on under the others
  CHECK(voices_left(song) == 2);
  song.voices[0].notes = every_other(0, 260);  // no further than fingers overlap
  CHECK(voices_left(song) == 1);
  song.voices[1].track = 2;
  CHECK(voices_left(song) == 2);
}

TEST_CASE("where the channels of a track are no single line, it is told how many notes were left out") {
  ReadOptions options;
  options.part = "Guitar";
  const auto read = read_midi(
      midi_file({TrackOfNotes{"Guitar", "C5@0+480 E5@480+480", 1, {"81 70 91 4A 50", "87 40 81 4A 00"}}}), options);
  CHECK(notes_of(read.solo) == "C5@0+1 E5@1+1");
  CHECK(warnings_of(read) ==
        "channel 1 of track 2 (Guitar) has 2 of the 3 notes asked for, which lie on 2 channels and are not one line; "
        "the others were left out, --track 'channel N' chooses another\n");
}
