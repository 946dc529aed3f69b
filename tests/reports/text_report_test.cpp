#include "reports/text_report.hpp"

#include "reports/text/display_width.hpp"
#include "tests/reports/sample_report.hpp"
#include "tests/support/analysed.hpp"

#include <catch2/catch.hpp>

#include <regex>
#include <sstream>
#include <string>

namespace insideline::tests {
namespace {

using reports::BarByBar;
using reports::Colour;
using reports::text_report;

/// The text with every run of white space as one space, so that line breaks do not matter.
std::string on_one_line(const std::string& text) { return std::regex_replace(text, std::regex("\\s+"), " "); }

bool says(const std::string& text, const std::string& sentence) {
  return on_one_line(text).find(sentence) != std::string::npos;
}

Density density_of(int chord_tones, int notes) {
  Density density;
  density.notes = notes;
  density.chord_tones = chord_tones;
  return density;
}

reports::Report with_chance(int shifts, double p_value) {
  reports::Report report = sample_report();
  report.analysis.summary.chance.shifts = shifts;
  report.analysis.summary.chance.p_value = p_value;
  return report;
}

std::string whole_summary(const reports::Report& report) {
  return text_report(report, {.length = reports::Length::whole});
}

}  // namespace

TEST_CASE("the summary fits 80 columns and keeps its lines clean") {
  const auto bars = GENERATE(BarByBar::left_out, BarByBar::shown);
  std::istringstream lines(text_report(sample_report(), {.bar_by_bar = bars}));
  for (std::string line; std::getline(lines, line);) {
    CAPTURE(line);
    CHECK(reports::display_width(line) <= 80);
    CHECK_FALSE(line.ends_with(' '));
  }
}

TEST_CASE("the summary asks for all that it tells") {
  const auto seed = GENERATE(range(1U, 9U));
  const auto line = random_line(seed, 32);
  const auto told = [&](Detail detail, reports::Length length) {
    reports::Report report;
    report.solo = line.solo;
    report.analysis = analyze(line.solo, line.harmony, {.detail = detail});
    return text_report(report, {.length = length});
  };
  CHECK(told(Detail::first_page, reports::Length::first_page) == told(Detail::reasons, reports::Length::first_page));
  CHECK(told(Detail::figures, reports::Length::whole) == told(Detail::reasons, reports::Length::whole));
}

TEST_CASE("the summary says what was read") {
  const std::string text = whole_summary(sample_report());
  CHECK(text.starts_with("Sample\n"));
  CHECK(says(text, "3 bars of 4/4, 1 chorus, 12 notes and 1 grace note."));
  CHECK(says(text,
             "From sample.musicxml: part Alto Sax (the first with a single line; --part takes another); the "
             "changes are in sample.changes. The part sounds 9 semitones lower than it is written; names are in "
             "concert pitch."));
}

TEST_CASE("the summary says how the part was chosen, where there was a choice") {
  reports::Report report = sample_report();
  const auto with = [&](reports::PartChoice choice) {
    report.source.part_choice = choice;
    return whole_summary(report);
  };
  CHECK(says(with(reports::PartChoice::asked_for), "From sample.musicxml: part Alto Sax; the changes"));
  CHECK(says(with(reports::PartChoice::only_one), "From sample.musicxml: part Alto Sax; the changes"));
  CHECK(says(with(reports::PartChoice::nearest_line),
             "part Alto Sax (none has a single line, this one comes nearest; --part takes another); the changes"));
}

TEST_CASE("the summary gives every share with its counts") {
  const std::string text = whole_summary(sample_report());
  CHECK(says(text, "8 of 12 notes (67 %) are heard as chord tones."));
  CHECK(says(text, "7 of 12 notes (58 %) fit."));
  CHECK(says(text, "4 of 12 notes (33 %) belong to 1 arpeggio"));
  CHECK(says(text, "1 of 1 connection (100 %) takes the nearest tone of the next chord"));
  CHECK(says(text, "2 tensions: [9] 2."));
  CHECK(says(text, "1 note belongs to the chord to come (anticipation): bar 2."));
}

TEST_CASE("the summary of a performance says how it sits in time") {
  reports::Report report = sample_report();
  report.analysis.time_feel = TimeFeel{.swing = Swing{.pairs = 7, .ratio = 1.6, .lower = 1.4, .upper = 1.9},
                                       .on_beat = {.notes = 5, .mean_ms = 21.4, .spread_ms = 9.0, .mean_percent = 4.2},
                                       .by_beat = {{.beat = 1, .lateness = {.notes = 3, .mean_ms = 30.0}},
                                                   {.beat = 3, .lateness = {.notes = 2, .mean_ms = -8.0}}},
                                       .off_beat = Lateness{.notes = 4, .mean_ms = -6.0, .spread_ms = 12.0}};
  const std::string text = whole_summary(report);
  CHECK(says(text,
             "Eighths swing 1.60 to 1, long to short, the median of 7 pairs; half of the pairs lie between 1.40 "
             "and 1.90."));
  CHECK(says(text, "5 notes written on a beat: 21 ms behind the beat (4 % of a beat), with a spread of 9 ms."));
  CHECK(says(text, "4 eighths off the beat, held against where that swing puts them: -6 ms, spread 12 ms."));
  CHECK(says(text, "beat 1 3 +30 ms"));
  CHECK(says(text, "beat 3 2 -8 ms"));
}

TEST_CASE("a score says nothing about time, even eighths are called even, and a hair's breadth is on the beat") {
  reports::Report report = sample_report();
  CHECK_FALSE(says(whole_summary(report), "In time"));
  TimeFeel feel;
  feel.swing = {.pairs = 1, .ratio = 1.05};
  feel.on_beat = {.notes = 1, .mean_ms = -3.0};
  report.analysis.time_feel = feel;
  CHECK(says(whole_summary(report), "Eighths are played nearly even: long to short 1.05 to 1, the median of 1 pair."));
  CHECK(says(whole_summary(report), "1 note written on a beat: on the beat (within 5 ms on average)"));
}

TEST_CASE("phrases, kinds of chord and choruses have rows of their own where there are several") {
  reports::Report report = sample_report();
  report.analysis.densities.by_quality = {{ChordQuality::minor, density_of(4, 6)},
                                          {ChordQuality::dominant, density_of(3, 4)}};
  report.analysis.densities.by_chorus = {density_of(3, 6), density_of(4, 4)};
  PhraseFigures phrase;
  phrase.first_bar = 1;
  phrase.last_bar = 2;
  phrase.lowest = {{Step::d, 0}, 4};
  phrase.highest = {{Step::e, 0}, 5};
  phrase.contour = Contour::arch;
  phrase.density = density_of(6, 9);
  phrase.arpeggio_share = {.count = 4, .of = 9};
  phrase.first_degree = Degree{1, 0};
  report.analysis.phrase_figures = {phrase, phrase};
  const std::string text = whole_summary(report);
  CHECK(says(text, "Chord tones by kind of chord and by chorus minor"));
  CHECK(says(text, "4 of 6 67 % dominant"));
  CHECK(says(text, "3 of 4 75 % chorus 1"));
  CHECK(says(text, "4 of 4 100 %"));
  CHECK(says(text, "bars 1-2 6 of 9; D4-E5 up and down; 1 to -; 4 in arpeggios"));
}

TEST_CASE("cells that come more than once are listed with their direction and kind of chord") {
  reports::Report report = sample_report();
  const Degree root{1, 0};
  const Degree fifth{5, 0};
  report.analysis.cells = {{{root, fifth}, Direction::ascending, ChordQuality::minor, 3},
                           {{fifth, root}, Direction::descending, ChordQuality::dominant, 2},
                           {{root, fifth}, Direction::ascending, ChordQuality::major, 1}};
  const std::string text = whole_summary(report);
  CHECK(says(text, "Cells of two or three tones 1-5 3 up, in minor chords 5-1 2 down, in dominant chords"));
  CHECK_FALSE(says(text, "in major chords"));
}

TEST_CASE("patterns are told with their bars and what changes in them, and only where there are some") {
  reports::Report report = sample_report();
  report.analysis.patterns = {};
  CHECK_FALSE(says(whole_summary(report), "Patterns"));
  report.analysis.patterns.riffs = {{.notes = 4,
                                     .places = {{.first = 0, .last = 0, .bar = 1},
                                                {.first = 0, .last = 0, .bar = 2, .moved = 5, .fitted = true},
                                                {.first = 0, .last = 0, .bar = 3, .moved = 5}}}};
  report.analysis.patterns.sequences = {{.first = 0, .last = 0, .notes = 3, .times = 4, .up = true}};
  report.analysis.patterns.digital = {{.first = 0, .last = 0, .chord = 0, .steps = "1 2 3 5"}};
  const std::string text = whole_summary(report);
  CHECK(says(text,
             "A riff of 4 notes comes 3 times (bars 1, 2 and 3), from another note 2 times and with a half step "
             "changed 1 time."));
  CHECK(says(text, "A sequence of 3 notes goes up from bar 1: 4 times."));
  CHECK(says(text, "Digital patterns: 1 2 3 5 (bar 1)."));
}

TEST_CASE("the chance level is put in words that fit the p-value") {
  const auto [shifts, p_value, verdict] = GENERATE(table<int, double, std::string>({
      {199, 0.005, "about 1 time in 200 (p = 0.005). That is not luck: the line follows these changes."},
      {31, 0.03125, "about 1 time in 32 (p = 0.031). That is hardly luck: the line follows these changes."},
      {15, 0.0625, "(p = 0.062). A good sign, though 15 comparisons are too few to be sure."},
      {31, 0.125, "about 1 time in 8 (p = 0.12). A good sign, but no proof."},
      {2, 1.0 / 3.0, "(p = 0.33). So the share alone does not show that the line follows these changes."},
      {15, 0.75, "more often than not (p = 0.75)."},
  }));
  CHECK(says(whole_summary(with_chance(shifts, p_value)), verdict));
}

TEST_CASE("a solo without chords is told so, and nothing is divided by nothing") {
  const std::string text = whole_summary(report_without_chords());
  CHECK(says(text, "No note sounds over a chord, so there is nothing to count."));
  CHECK_FALSE(says(text, "nan"));
  CHECK_FALSE(says(text, "%"));
}

TEST_CASE("what the analysis warns of stands in the summary") {
  reports::Report report = sample_report();
  report.analysis.warnings = {"the solo has only 12 notes"};
  CHECK(says(whole_summary(report), "Before you rely on this - the solo has only 12 notes"));
}

TEST_CASE("colour adds to the signs and never replaces them") {
  const std::string plain = text_report(sample_report(), {.bar_by_bar = BarByBar::shown});
  const std::string coloured = text_report(sample_report(), {.colour = Colour::on, .bar_by_bar = BarByBar::shown});
  CHECK(plain.find('\x1b') == std::string::npos);
  CHECK(coloured.find("\x1b[38;5;166m[9]\x1b[0m") != std::string::npos);
  CHECK(std::regex_replace(coloured, std::regex("\x1b\\[[0-9;]*m"), "") == plain);
}

TEST_CASE("a title cannot drive the terminal") {
  reports::Report report = sample_report();
  report.solo.title = "\x1b]0;owned\x07";
  report.solo.part = "\x1b[2J";
  CHECK(whole_summary(report).find('\x1b') == std::string::npos);
}

TEST_CASE("the first page leaves the details to those who ask") {
  const std::string brief = text_report(sample_report());
  const std::string whole = whole_summary(sample_report());
  CHECK(brief.size() < whole.size());
  CHECK(brief.find("Arpeggios\n") != std::string::npos);
  CHECK(brief.find("The shapes of the arpeggios") == std::string::npos);
  CHECK(whole.find("The shapes of the arpeggios") != std::string::npos);
}

}  // namespace insideline::tests
