#include "reports/reading_words.hpp"

#include "reports/csv_report.hpp"
#include "reports/explain_report.hpp"
#include "tests/reports/sample_report.hpp"

#include <catch2/catch.hpp>

#include <sstream>
#include <string>
#include <vector>

using Catch::Matchers::Contains;
using insideline::reports::ReadBy;
using insideline::reports::reader_in_short;
using insideline::reports::reading_sentences;
using insideline::reports::Report;

namespace {

/// The sample, an alto part, as somebody reads it; only the words are set, not the notes.
Report read_by(ReadBy reader, const std::string& instrument = "", int octaves = 0, int outside = 0) {
  Report report = insideline::tests::sample_report();
  report.reading.reader = reader;
  report.reading.instrument = insideline::instrument_named(instrument);
  report.reading.octaves = octaves;
  report.reading.notes_outside = outside;
  return report;
}

}  // namespace

TEST_CASE("the head of a report says in whose pitch its names are") {
  CHECK(reading_sentences(read_by(ReadBy::everybody)) ==
        "The part sounds 9 semitones lower than it is written; names are in concert pitch.");
  CHECK(reading_sentences(read_by(ReadBy::player_of_the_part)) ==
        "Names are in the written pitch of the part, 9 semitones above what it sounds.");
  CHECK(
      reading_sentences(read_by(ReadBy::player_of_an_instrument, "trumpet", 0, 1)) ==
      "Names are in the written pitch of the trumpet in B flat, 2 semitones above what it sounds. 1 note lies outside "
      "its range, F#3 to C6.");
  CHECK(
      reading_sentences(read_by(ReadBy::player_of_an_instrument, "guitar", 1)) ==
      "Names are in the written pitch of the guitar, an octave above what it sounds. The line stands an octave higher "
      "than played, in the range of the instrument.");
  CHECK(reading_sentences(read_by(ReadBy::player_of_an_instrument, "tuba", -2)) ==
        "Names are in concert pitch, in which the tuba is written. The line stands 2 octaves lower than played, in the "
        "range of the instrument.");
  Report concert_part = read_by(ReadBy::everybody);
  concert_part.solo.sounding_minus_written = {};
  CHECK(reading_sentences(concert_part) == "Names are in concert pitch.");
}

TEST_CASE("the head of a sheet says it in short") {
  CHECK(reader_in_short(read_by(ReadBy::everybody), "Alto Sax") == "Alto Sax, in concert pitch");
  CHECK(reader_in_short(read_by(ReadBy::player_of_the_part), "") == "in written pitch");
  CHECK(reader_in_short(read_by(ReadBy::player_of_an_instrument, "horn"), "Alto Sax") == "Horn in F, in written pitch");
  CHECK(reader_in_short(read_by(ReadBy::player_of_an_instrument, "cello", -1), "Alto Sax") ==
        "Cello, an octave lower than played");
}

TEST_CASE("the number of a note in a table is that of the sound, and the sheet of reasons says whose names it has") {
  Report report = read_by(ReadBy::player_of_the_part);
  const std::string before = insideline::reports::csv_report(report);
  CHECK_THAT(before, Contains(",62,D4,"));
  report.reading.above_sounding = {5, 9};
  for (auto& note : report.solo.notes) note.pitch = transposed(note.pitch, report.reading.above_sounding);
  CHECK_THAT(insideline::reports::csv_report(report), Contains(",62,B4,"));
  std::ostringstream text;
  insideline::reports::write_explanation(text, report, std::vector<std::size_t>{0}, {});
  CHECK_THAT(text.str(), Contains("Names are in the written pitch of the part") && Contains("B4 over"));
}
