#include "reports/printed/handout.hpp"

#include "reports/printed/prelude.hpp"
#include "tests/reports/sample_report.hpp"
#include "tests/support/folders.hpp"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <string>

using Catch::Matchers::Contains;
using insideline::reports::AnswerStaff;
using insideline::reports::BarRange;
using insideline::reports::ChordRow;
using insideline::reports::excerpt_of;
using insideline::reports::handout_text;
using insideline::reports::HandoutOptions;
using insideline::reports::lines_of_music;
using insideline::reports::Paper;
using insideline::reports::printed_prelude;
using insideline::reports::Report;
using insideline::reports::SheetKind;
using insideline::reports::Topic;
using insideline::tests::report_without_chords;
using insideline::tests::sample_report;

namespace {

/// The text without our own prelude, which would hide the rest.
std::string own_text(const Report& report, const HandoutOptions& options = {}) {
  std::string text = handout_text(report, options);
  const std::size_t prelude = text.find(printed_prelude());
  REQUIRE(prelude != std::string::npos);
  return text.erase(prelude, printed_prelude().size());
}

}  // namespace

TEST_CASE("the printed text of a small report is the one that was looked at") {
  const std::string file = INSIDELINE_TESTS "/reports/printed/sample.ly";
  if (std::getenv("INSIDELINE_APPROVE") != nullptr) std::ofstream(file) << own_text(sample_report());
  std::ifstream stream(file);
  const std::string expected{std::istreambuf_iterator<char>(stream), {}};
  CHECK(own_text(sample_report()) == expected);
}

TEST_CASE("a sheet says whose pitch it is in, and has the clef of the instrument") {
  Report report = sample_report();
  CHECK_THAT(own_text(report), Contains("Alto Sax, in concert pitch"));
  report.reading.reader = insideline::reports::ReadBy::player_of_the_part;
  CHECK_THAT(own_text(report), Contains("Alto Sax, in written pitch"));
  report.reading.reader = insideline::reports::ReadBy::player_of_an_instrument;
  report.reading.instrument = insideline::instrument_named("viola");
  report.reading.octaves = -1;
  CHECK_THAT(own_text(report), Contains("\"Viola, an octave lower than played\"") && Contains("\\clef alto"));
}

TEST_CASE("some bars are printed with the chord that sounds there and what belongs to them alone") {
  const std::string text = own_text(sample_report(), {.bars = BarRange{2, 2}});
  CHECK_THAT(text, Contains("currentBarNumber = #2") && Contains("Alto Sax, in concert pitch; bar 2"));
  CHECK_THAT(text, Contains("\"G\"") && !Contains("\"n0\"") && !Contains("\"n11\""));
  CHECK_THAT(text, Contains("The whole solo in figures"));
  CHECK_FALSE(excerpt_of(sample_report().solo, BarRange{7, 9}));
}

TEST_CASE("the sheet is set up as it was asked for") {
  CHECK_THAT(own_text(sample_report(), {.paper = Paper::letter}), Contains("set-default-paper-size \"letter\""));
  CHECK_THAT(own_text(sample_report(), {.chords = ChordRow::left_out}), !Contains("\\chord-symbol"));
  const std::string worksheet = own_text(sample_report(), {.kind = SheetKind::worksheet});
  CHECK_THAT(worksheet, Contains("(define sheet 'worksheet)") && Contains("\\section \"Tasks\""));
  CHECK_THAT(worksheet, !Contains("Answers") && !Contains("in figures"));
  const std::string key = own_text(sample_report(), {.kind = SheetKind::key});
  CHECK_THAT(key, Contains("\\section \"Tasks\"") && Contains("\\section \"Answers\""));
}

TEST_CASE("one page, empty staves and one topic") {
  CHECK_THAT(own_text(sample_report(), {.one_page = true}),
             Contains("(define on-one-page #t)") && Contains("set-global-staff-size 15"));
  const std::string under = own_text(sample_report(), {.answer_staff = AnswerStaff::under_each_line});
  CHECK_THAT(under, Contains("\\answer-staff-style } \\answers") && Contains("\\skip 4*4 | \\skip 4*4 | \\skip 4*4 |"));
  CHECK_THAT(own_text(sample_report(), {.answer_staff = AnswerStaff::at_the_end}), Contains("\\empty-staves"));
  const std::string tensions = own_text(sample_report(), {.topics = {Topic::tensions}});
  CHECK_THAT(tensions, Contains("\\note #'P \"n0\"") && Contains("\\note #'T \"n4\"") && !Contains("in figures"));
  CHECK_THAT(tensions, Contains("(define legend-items '(T))"));
  CHECK(lines_of_music(sample_report(), {}) == 1);
}

TEST_CASE("the chords of a sheet without them are on its key, where they were asked for") {
  const HandoutOptions worksheet{.kind = SheetKind::worksheet, .chords = ChordRow::left_out};
  const HandoutOptions key{.kind = SheetKind::key, .chords = ChordRow::left_out};
  CHECK_THAT(own_text(sample_report(), worksheet), !Contains("\\chord-symbol"));
  CHECK_THAT(own_text(sample_report(), key), Contains("\\chord-symbol"));
}

TEST_CASE("a solo without chords prints its notes with no degree") {
  const std::string text = own_text(report_without_chords());
  CHECK_THAT(text, Contains("\\degree #'X \"\" \"\" \"?\" \"\"") && !Contains("in figures"));
}

TEST_CASE("a hostile title stays text") {
  Report report = sample_report();
  report.solo.title = "\"}#(system \"touch x\")\\include \"y\" " + std::string(5000, 'z');
  report.solo.part = "\\markup \"\n#(exit 3)";
  const std::string text = own_text(report);
  CHECK_THAT(text, Contains(R"(title = "\"}#(system \"touch x\")\\include \"y\" )"));
  CHECK_THAT(text, Contains(R"(described = "\\markup \" #(exit 3), in concert pitch")"));
  CHECK(text.size() < own_text(sample_report()).size() + 400);
}
