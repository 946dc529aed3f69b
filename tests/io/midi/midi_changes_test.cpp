#include "io/midi/midi.hpp"

#include "tests/io/midi/midi_shorthand.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::io::ReadOptions;
using insideline::tests::midi_file;
using insideline::tests::read_midi;
using insideline::tests::warnings_of;

namespace {

std::string changes_of(const insideline::io::ReadResult& read) {
  std::string text;
  if (!read.changes) return "none";
  for (const auto& span : read.changes->spans)
    text += (text.empty() ? "" : " ") + (span.chord ? span.chord->symbol : std::string("N.C.")) + "@" +
            to_string(span.onset) + "+" + to_string(span.duration);
  return text;
}

const std::string line = "C5@0+960 D5@960+960 E5@1920+1920";

}  // namespace

TEST_CASE("markers, texts and lyrics that read as chord symbols are the changes") {
  const std::string kind = GENERATE("06", "01", "05", "07");
  // Dm7, G7(b9), Cmaj7 on beats 1 and 3 and in the next bar
  const auto read = read_midi(midi_file({{"Horn",
                                          line,
                                          1,
                                          {"00 FF" + kind + "03 446D37", "87 40 FF" + kind + "06 4737286239 29",
                                           "8F 00 FF" + kind + "05 436D616A 37"}}}));
  CHECK(changes_of(read) == "Dm7@0+2 G7(b9)@2+2 Cmaj7@4+4");
  CHECK(read.changes->extent == insideline::Extent::once);
}

TEST_CASE("rehearsal letters are no changes, and neither are words") {
  CHECK(changes_of(read_midi(midi_file({{"", line, 1, {"00 FF060141", "87 40 FF060142", "8F 00 FF060141"}}}))) ==
        "none");
  CHECK(changes_of(read_midi(midi_file({{"", line, 1, {"00 FF0504 676F6C64", "87 40 FF0502 4137"}}}))) == "none");
}

TEST_CASE("a text among the symbols that cannot be read is told") {
  const auto read = read_midi(midi_file(
      {{"",
        line,
        1,
        {"00 FF0602 4337", "83 60 FF0602 4637", "87 40 FF0602 4337", "8B 20 FF0602 4737", "8F 00 FF0603 736F6C"}}}));
  CHECK(changes_of(read) == "C7@0+1 F7@1+1 C7@2+1 G7@3+5");
  CHECK_THAT(warnings_of(read),
             Catch::Contains("1 of 5 texts among the chord symbols could not be read, the first is 'sol'"));
}

TEST_CASE("block chords on a track of their own become the simplest symbols, marked as inferred") {
  ReadOptions options;
  options.chord_track = "Piano";
  const auto read =
      read_midi(midi_file({{"Horn", line, 1, {}},
                           {"Piano",
                            "D3@0+900 F3@0+900 A3@0+900 C4@0+900 G3@963+900 B3@965+900 D4@960+900 F4@970+900 "
                            "C3@1920+900 E3@1920+900 G3@1920+900 A3@1920+900 E3@2880+900 G3@2880+900 C4@2880+900",
                            2,
                            {}}}),
                options);
  CHECK(changes_of(read) == "Dm7@0+2 G7@2+2 C6@4+2 C/E@6+2");
  CHECK_THAT(warnings_of(read),
             Catch::Contains("the changes were inferred from the notes of the chord track (4 chords)"));
  CHECK(read.solo.part == "Horn");
}

TEST_CASE("chords without a plain name keep the one before, and are counted") {
  ReadOptions options;
  options.chord_track = "3";
  const auto read =
      read_midi(midi_file({{"Horn", line, 1, {}},
                           {"Piano", "C3@0+900 E3@0+900 G3@0+900 C3@960+900 C#3@960+900 D3@960+900", 2, {}}}),
                options);
  CHECK(changes_of(read) == "C@0+8");
  CHECK_THAT(warnings_of(read), Catch::Contains("1 chords of the chord track"));
}
