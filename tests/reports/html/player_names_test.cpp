#include "reports/html/player_names.hpp"

#include "analyzer/model/pitch.hpp"
#include "tests/reports/sample_report.hpp"

#include <algorithm>
#include <string>

#include <catch2/catch.hpp>

using insideline::midi_number;
using insideline::reports::PageReader;
using insideline::reports::player_names;
using insideline::reports::PlayerNames;
using insideline::reports::Report;
using insideline::tests::report_without_chords;
using insideline::tests::sample_report;

namespace {

PageReader reader_named(const PlayerNames& names, const std::string& name) {
  const auto found = std::ranges::find(names.readers, name, &PageReader::name);
  REQUIRE(found != names.readers.end());
  return *found;
}

/// The sample in the pitch of a tenor's player.
Report tenor_report() {
  Report report = sample_report();
  report.reading.above_sounding = {8, 14};
  for (auto& note : report.solo.notes) note.pitch = transposed(note.pitch, report.reading.above_sounding);
  for (auto& sounding : report.analysis.harmony.chords)
    sounding.chord = transposed(sounding.chord, report.reading.above_sounding);
  return report;
}

}  // namespace

TEST_CASE("a trumpet reads the line a tone higher, an alto a sixth, a tenor a ninth") {
  const Report report = sample_report();
  const PlayerNames names = player_names(report);
  CHECK(names.readers.front().name == "concert pitch");
  CHECK_FALSE(names.readers.front().moved);
  const PageReader trumpet = reader_named(names, "Trumpet in B flat");
  const PageReader tenor = reader_named(names, "Tenor saxophone");
  const PageReader alto = reader_named(names, "Alto saxophone");
  REQUIRE(trumpet.moved);
  REQUIRE(alto.moved);
  CHECK(trumpet.moved == tenor.moved);
  CHECK(trumpet.octaves == 0);
  CHECK(tenor.octaves == 1);
  CHECK(names.moved[*trumpet.moved].notes[6] == "Eb5");  // from Db5
  CHECK(names.moved[*trumpet.moved].chords[1] == "A7");  // from G7
  CHECK(names.moved[*alto.moved].notes[6] == "Bb5");
  CHECK(names.moved[*alto.moved].chords[1] == "E7");
}

TEST_CASE("a double bass keeps the names and reads them an octave higher") {
  const PageReader bass = reader_named(player_names(sample_report()), "Double bass");
  CHECK_FALSE(bass.moved);
  CHECK(bass.octaves == 1);
}

TEST_CASE("a page in a tenor's pitch has its notes in concert pitch, too") {
  const PlayerNames names = player_names(tenor_report());
  CHECK(names.readers.front().name == "as it is written");
  const PageReader concert = reader_named(names, "concert pitch");
  REQUIRE(concert.moved);
  CHECK(concert.octaves == -2);
  // An ascending minor seventh and two octaves down again are the major ninth down.
  CHECK(names.moved[*concert.moved].by.semitones == 10);
  CHECK(names.moved[*concert.moved].notes[6] == "Db7");
  CHECK(names.moved[*concert.moved].chords[1] == "G7");
  CHECK_FALSE(reader_named(names, "Tenor saxophone").moved);
}

TEST_CASE("a solo without chords is named for all players as well") {
  const Report report = report_without_chords();
  const PlayerNames names = player_names(report);
  for (const auto& moved : names.moved) CHECK(moved.notes.size() == report.solo.notes.size());
}
