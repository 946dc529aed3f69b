#include "reports/assessment/assessment_report.hpp"

#include <regex>
#include <sstream>
#include <string>

#include <catch2/catch.hpp>

using Catch::Contains;
using insideline::Beats;
using insideline::Broken;
using insideline::Mistake;
using insideline::TakeGroup;
using insideline::reports::assessment_page;
using insideline::reports::assessment_text;
using insideline::reports::AssessmentReport;
using insideline::reports::Colour;

namespace {

TakeGroup group(const std::string& name, int right, int of, int wrong, int missing) {
  TakeGroup made;
  made.name = name;
  made.right = {right, of};
  made.wrong = wrong;
  made.missing = missing;
  return made;
}

Mistake mistake(const std::string& bar, const Beats& beat, const std::string& wanted, const std::string& played) {
  Mistake made;
  made.bar = bar;
  made.beat = beat;
  made.wanted = insideline::parse_pitch(wanted);
  made.played = insideline::parse_pitch(played);
  return made;
}

/// All of the sheet, in one go, with some wrong notes.
AssessmentReport sample() {
  AssessmentReport report;
  report.take_file = "take.mid";
  report.sheet_title = "Quay <Steps>";
  report.assessment.all = group("all", 52, 64, 8, 4);
  report.assessment.added = 1;
  report.assessment.coverage.bars = {9, 9};
  report.assessment.complete = true;
  report.assessment.by_direction = {group("up", 30, 32, 2, 0), group("down", 22, 32, 6, 4)};
  report.assessment.by_bar = {group("bar 1", 8, 8, 0, 0)};
  report.assessment.trouble_spots = {report.assessment.by_direction[1]};
  report.assessment.bars_to_work_on = {group("bar 3", 5, 8, 2, 1), group("bar 7", 3, 8, 3, 2)};
  report.assessment.mistakes = {mistake("3", {5, 2}, "Eb4", "E4"), mistake("7", 1, "G4", ""),
                                mistake("7", 3, "", "A4")};
  return report;
}

std::string on_one_line(const std::string& text) { return std::regex_replace(text, std::regex("\\s+"), " "); }

}  // namespace

TEST_CASE("an assessment says how much is right, where most goes wrong and what to do next") {
  const std::string text = on_one_line(assessment_text(sample(), Colour::off));
  CHECK_THAT(text,
             Contains("52 of 64 notes right; the others: 8 wrong and 4 missing; 1 note added, which is a mistake as "
                      "well. Not settled: in 65 notes it takes 2 mistakes or fewer to show that it is ready, and 14 or "
                      "more to show that it is not."));
  CHECK_THAT(text, Contains("Played: all 9 bars."));
  CHECK_THAT(text, Contains("Most mistakes: bar 7 (5 of 8) and bar 3 (3 of 8)."));
  CHECK_THAT(text, Contains("Goes wrong more often than the rest: down, 22 of 32 right."));
  CHECK_THAT(text, Contains("Next: bar 7 alone and slowly, then the sheet again at this tempo."));
  CHECK_THAT(text, Contains("ask your teacher or a physician"));
}

TEST_CASE("a take that was played to a click is told where it sits in time") {
  AssessmentReport report = sample();
  insideline::TimeFeel feel;
  feel.swing = {.pairs = 9, .ratio = 1.8, .lower = 1.6, .upper = 2.0};
  feel.on_beat = {.notes = 20, .mean_ms = 18.0, .mean_percent = 3.4};
  report.time_feel = feel;
  const std::string text = on_one_line(assessment_text(report, Colour::off));
  CHECK_THAT(text,
             Contains("Against the beats of the file: 20 notes on a beat, 18 ms behind the beat (3 % of a beat)."));
}

TEST_CASE("each note that was not as written is told with what was to be played and what was") {
  const std::string text = on_one_line(assessment_text(sample(), Colour::off));
  CHECK_THAT(text,
             Contains("Note by note, as the sheet is written to play played bar 3, beat 2& Eb4 E4 bar 7, beat 1 G4 "
                      "- bar 7, beat 3 - A4"));
  CHECK_THAT(assessment_page(sample()), Contains("bar 3, beat 2&amp;"));
}

TEST_CASE("right notes are not ready where the sheet was not played whole, or not in one go, or not in one tempo") {
  AssessmentReport report = sample();
  report.assessment.all = group("all", 64, 64, 0, 0);
  report.assessment.added = 0;
  const auto said = [&] { return on_one_line(assessment_text(report, Colour::off)); };
  CHECK_THAT(
      said(),
      Contains("Ready: surely fewer than one mistake in 8 notes, and the whole sheet; as all notes lie exactly on the "
               "grid, tempo and evenness are not judged."));
  report.assessment.coverage = {.bars = {8, 32}, .silent = {{"9", "31"}, {"33", "33"}}, .left = {}};
  report.assessment.complete = false;
  CHECK_THAT(said(), Contains("Not ready: not the whole sheet was played. By the notes alone: ready: surely fewer"));
  CHECK_THAT(said(), Contains("Played: 8 of 32 bars; nothing of bars 9 to 31 and 33."));
  report.assessment.interruptions = {{.how = Broken::began_again, .bar = "5", .on_in = "3"},
                                     {.how = Broken::stopped, .bar = "6", .on_in = "7", .quarters = 2.5}};
  CHECK_THAT(said(), Contains("Breaks: broken off in bar 5 and begun again from bar 3; about 2 and a half quarter "
                              "notes too late into bar 7."));
  report.assessment.tempo = {.tempi = {{"1", 96.0}, {"3", 128.0}},
                             .mean_bpm = 112.0,
                             .start_bpm = 96.0,
                             .end_bpm = 128.0,
                             .drift_a_chorus = 16.0,
                             .drift_percent = 28.0,
                             .furthest_percent = 14.3,
                             .jumps = {{"3", 96.0, 128.0}}};
  CHECK_THAT(said(),
             Contains("Not ready: not the whole sheet was played, it was not played through without a break and "
                      "the tempo did not hold."));
  CHECK_THAT(said(), Contains("Tempo: quarter note = 96 at the beginning and 128 at the end, 16.0 more each chorus. It "
                              "rushes. At the furthest it is 14 % faster than 112, its mean; up to 5 % it would "
                              "hold. In bar 3 it jumps from 96 to 128."));
  report.assessment.tempo->furthest_percent = -5.3;
  CHECK_THAT(said(), Contains("At the furthest it is 5.3 % slower than 112, its mean; up to 5 % it would hold."));
}

TEST_CASE("evenness is told with the swing that was taken out") {
  AssessmentReport report = sample();
  report.assessment.evenness = {.notes = 60, .tempo_bpm = 96.0, .spread_ms = 45.0, .spread_percent = 7.2};
  const auto said = [&] { return on_one_line(assessment_text(report, Colour::off)); };
  CHECK_THAT(said(), Contains("Fairly even: the notes stray 45 ms from their places (7 % of a quarter note)."));
  report.assessment.evenness->swing_ratio = 1.55;
  CHECK_THAT(said(), Contains("Eighths swing 1.55 to 1, long to short; that is taken out."));
  report.assessment.evenness->spread_percent = 14.0;
  CHECK_THAT(said(), Contains("Not ready: the notes come unevenly."));
  report.assessment.evenness->swing_ratio = 1.02;
  CHECK_THAT(said(),
             Contains("Uneven: the notes stray") && Contains("Eighths do not swing.") && !Contains("nearly even"));
}

TEST_CASE("only what can be compared has a table, and no line is wider than the page") {
  const std::string text = assessment_text(sample(), Colour::off);
  CHECK_THAT(text, Contains("By direction of the arpeggio"));
  CHECK_THAT(text, !Contains("By bar"));
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 80 + 2 * 20);  // a block is three bytes
}

TEST_CASE("another bound gives another verdict") {
  AssessmentReport report = sample();
  report.bound = 3;
  CHECK_THAT(
      on_one_line(assessment_text(report, Colour::off)),
      Contains("Ready: surely fewer than one mistake in 3 notes, and the whole sheet; as all notes lie exactly on the "
               "grid, tempo and evenness are not judged."));
  report.bound = 12;
  CHECK_THAT(on_one_line(assessment_text(report, Colour::off)),
             Contains("Not ready: surely one mistake in 12 notes, or more."));
}

TEST_CASE("from a few notes nothing is settled, even if all are right") {
  AssessmentReport report = sample();
  report.assessment.all = group("all", 16, 16, 0, 0);
  report.assessment.added = 0;
  CHECK_THAT(on_one_line(assessment_text(report, Colour::off)),
             Contains("16 of 16 notes right. Not settled: 16 notes are too few to tell."));
}

TEST_CASE("the page says the same, and shows names as text") {
  const std::string page = assessment_page(sample());
  CHECK_THAT(page, Contains("52 of 64 notes right"));
  CHECK_THAT(page, Contains("Quay &lt;Steps&gt;"));
  CHECK_THAT(page, !Contains("<Steps>"));
  CHECK_THAT(page, Contains("By direction of the arpeggio"));
}
