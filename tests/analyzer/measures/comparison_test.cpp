#include "analyzer/measures/comparison.hpp"

#include "analyzer/alignment.hpp"
#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/measures/block_bootstrap.hpp"
#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::BarSeries;
using insideline::Beats;
using insideline::compare;
using insideline::ComparedSolo;
using insideline::Comparison;
using insideline::ComparisonSettings;
using insideline::Draws;
using insideline::figure_rows;
using insideline::FigureDifference;
using insideline::FigureUnit;
using insideline::Harmony;
using insideline::Interval;
using insideline::Solo;
using insideline::Verdict;

namespace {

constexpr ComparisonSettings quickly{.resamples = 200, .seed = 1};

ComparedSolo random_solo(unsigned seed, int bars, const Interval& moved = {}) {
  const auto random = insideline::tests::random_line(seed, bars);
  const Solo solo = insideline::tests::transposed(random.solo, moved);
  const auto line = insideline::tests::analysed(solo, insideline::tests::transposed(random.harmony, moved));
  return compared_solo("solo " + std::to_string(seed), line.solo, line.analysis);
}

/// A solo in which every figure has these amounts.
ComparedSolo solo_of(std::string name, const BarSeries& bars) {
  ComparedSolo solo;
  solo.name = std::move(name);
  solo.bars = static_cast<int>(bars.size());
  solo.notes = 100;
  solo.changes = 20;
  solo.figures.assign(figure_rows().size(), bars);
  return solo;
}

BarSeries times(std::size_t count, const BarSeries& bars) {
  BarSeries series;
  while (series.size() < count) series.insert(series.end(), bars.begin(), bars.end());
  return series;
}

FigureDifference first_figure(const Comparison& comparison) { return comparison.solos[1].differences.front(); }

/// `bars` bars of two to seven notes, each a chord tone with a probability that wanders around `mean`.
BarSeries played(Draws& dice, int bars, double mean) {
  constexpr std::size_t fine = 1'000'000;
  const auto even = [&] { return static_cast<double>(dice.below(fine)) / fine; };
  BarSeries series;
  for (int i = 0; i < bars; ++i) {
    const double here = mean + 0.4 * (even() - 0.5);
    insideline::BarAmount bar{.part = 0, .whole = static_cast<double>(2 + dice.below(6))};
    for (int note = 0; note < bar.whole; ++note) bar.part += even() < here ? 1 : 0;
    series.push_back(bar);
  }
  return series;
}

}  // namespace

TEST_CASE("a solo does not differ from itself in anything") {
  const ComparedSolo solo = random_solo(1, 24);
  const Comparison comparison = compare(std::vector{solo, solo}, quickly);
  REQUIRE(comparison.solos[1].differences.size() == figure_rows().size());
  CHECK(comparison.solos[1].judged > 30);
  for (const FigureDifference& figure : comparison.solos[1].differences) {
    CHECK(figure.difference.value_or(0.0) == Approx(0.0).margin(1e-12));
    CHECK(figure.verdict != Verdict::more);
    CHECK(figure.verdict != Verdict::less);
  }
}

TEST_CASE("two solos the other way round differ by as much the other way") {
  const ComparedSolo a = random_solo(2, 20);
  const ComparedSolo b = random_solo(3, 28);
  const Comparison forth = compare(std::vector{a, b}, quickly);
  const Comparison back = compare(std::vector{b, a}, quickly);
  for (std::size_t i = 0; i < figure_rows().size(); ++i) {
    const FigureDifference& one = forth.solos[1].differences[i];
    const FigureDifference& other = back.solos[1].differences[i];
    REQUIRE(one.difference.has_value() == other.difference.has_value());
    REQUIRE(one.interval.has_value() == other.interval.has_value());
    if (one.difference) CHECK(*one.difference == Approx(-*other.difference).margin(1e-12));
    if (!one.interval) continue;
    CHECK(one.interval->low == Approx(-other.interval->high).margin(1e-9));
    CHECK(one.interval->high == Approx(-other.interval->low).margin(1e-9));
    CHECK((one.verdict == Verdict::more) == (other.verdict == Verdict::less));
  }
}

TEST_CASE("a comparison does not hang on the key") {
  const std::vector plain = {random_solo(4, 20), random_solo(5, 20)};
  const std::vector moved = {random_solo(4, 20, {2, 3}), random_solo(5, 20, {2, 3})};
  const Comparison one = compare(plain, quickly);
  const Comparison other = compare(moved, quickly);
  for (std::size_t i = 0; i < figure_rows().size(); ++i) {
    INFO(figure_rows()[i].key);
    CHECK(one.solos[0].values[i].value.value_or(0) == Approx(other.solos[0].values[i].value.value_or(0)).margin(1e-12));
    CHECK(one.solos[1].differences[i].verdict == other.solos[1].differences[i].verdict);
  }
}

TEST_CASE("the same seed gives the same intervals, another one nearly the same") {
  const std::vector solos = {random_solo(6, 24), random_solo(7, 24)};
  const auto interval = [&](std::uint64_t seed) {
    return *first_figure(compare(solos, {.resamples = 1000, .seed = seed})).interval;
  };
  CHECK(interval(1).low == interval(1).low);  // to the last bit
  CHECK(interval(1).high == interval(1).high);
  CHECK(interval(1).low != interval(2).low);
  CHECK(interval(1).low == Approx(interval(2).low).margin(0.05));
  CHECK(interval(1).high == Approx(interval(2).high).margin(0.05));
}

TEST_CASE("a difference is clear where nothing is left out of it") {
  const BarSeries many = times(16, {{4, 5}, {5, 6}, {3, 4}});
  const BarSeries few = times(16, {{2, 5}, {3, 6}, {1, 4}});
  const BarSeries mixed = times(16, {{5, 5}, {2, 6}, {4, 4}, {5, 6}});
  const auto verdict = [](const BarSeries& first, const BarSeries& other) {
    return first_figure(compare(std::vector{solo_of("A", first), solo_of("B", other)})).verdict;
  };
  CHECK(verdict(few, many) == Verdict::more);
  CHECK(verdict(many, few) == Verdict::less);
  CHECK(verdict(mixed, many) == Verdict::no_clear_difference);
  CHECK(verdict(many, many) == Verdict::no_clear_difference);
}

TEST_CASE("too little is not judged") {
  const BarSeries enough = times(16, {{1, 2}, {2, 2}});
  const auto compared = [&](const BarSeries& other) {
    return first_figure(compare(std::vector{solo_of("A", enough), solo_of("B", other)}));
  };
  CHECK(compared(BarSeries{{0, 1}, {1, 1}, {0, 1}, {1, 1}, {0, 1}, {1, 1}, {0, 1}, {1, 1}}).interval);
  const FigureDifference seven_notes = compared(BarSeries{{0, 1}, {1, 1}, {0, 1}, {1, 1}, {0, 1}, {1, 1}, {0, 1}});
  CHECK(seven_notes.verdict == Verdict::too_few);
  CHECK(seven_notes.difference == Approx(3.0 / 7 - 0.75));
  CHECK_FALSE(seven_notes.interval);
  CHECK(compared(BarSeries{{4, 9}}).verdict == Verdict::too_few);  // a single bar has no spread
  CHECK_FALSE(compared(BarSeries(8)).difference);
}

TEST_CASE("what neither solo has is not judged") {
  const BarSeries none = times(16, {{0, 3}});
  const Comparison comparison = compare(std::vector{solo_of("A", none), solo_of("B", none)});
  CHECK(first_figure(comparison).verdict == Verdict::in_neither);
  CHECK_FALSE(first_figure(comparison).interval);
}

// Drawn again, all of ten is always all of ten, as if nothing else could have happened.
TEST_CASE("all or none of a few notes is no certainty") {
  const BarSeries all = times(10, {{1, 1}});
  const BarSeries most = times(10, {{1, 1}, {1, 1}, {1, 1}, {1, 1}, {0, 1}});
  const FigureDifference figure = first_figure(compare(std::vector{solo_of("A", all), solo_of("B", all)}));
  REQUIRE(figure.interval);
  CHECK(figure.interval->low == Approx(-0.2775).margin(1e-4));  // 0 of 10 by Wilson: 0 to 0.2775
  CHECK(figure.interval->high == Approx(0.2775).margin(1e-4));
  CHECK(first_figure(compare(std::vector{solo_of("A", most), solo_of("B", all)})).verdict ==
        Verdict::no_clear_difference);
}

TEST_CASE("each solo is compared with the first") {
  const BarSeries low = times(16, {{1, 5}, {2, 6}});
  const BarSeries high = times(16, {{4, 5}, {5, 6}});
  const Comparison comparison = compare(std::vector{solo_of("A", low), solo_of("B", high), solo_of("C", low)});
  CHECK(comparison.solos[0].differences.empty());
  CHECK(comparison.solos[1].differences.front().verdict == Verdict::more);
  CHECK(comparison.solos[2].differences.front().verdict == Verdict::no_clear_difference);
  CHECK(comparison.solos[1].judged == static_cast<int>(figure_rows().size()));
}

TEST_CASE("a short solo says so") {
  ComparedSolo brief = solo_of("Anke", times(4, {{1, 2}, {2, 2}}));
  brief.notes = 12;
  brief.changes = 1;
  const Comparison comparison = compare(std::vector{solo_of("Bjarne", times(16, {{1, 2}, {2, 2}})), brief});
  CHECK(comparison.cautions ==
        std::vector<std::string>{"Anke has only 12 notes: from fewer than 30 little can be said",
                                 "Anke has only 1 change of chord: from fewer than 8 little can be said"});
  const Comparison one_bar = compare(std::vector{solo_of("Bjarne", times(16, {{1, 2}})), solo_of("Carla", {{9, 20}})});
  CHECK(one_bar.cautions ==
        std::vector<std::string>{"Carla has only 1 bar, fewer than two of the runs of 1 that they would be drawn in"});
}

TEST_CASE("bars that hang together are drawn together, and a solo shorter than two such runs says so") {
  const BarSeries wave = {{4, 4}, {4, 4}, {4, 4}, {4, 4}, {4, 4}, {4, 4},
                          {0, 4}, {0, 4}, {0, 4}, {0, 4}, {0, 4}, {0, 4}};
  const BarSeries waves = times(96, wave);
  const std::size_t run = insideline::block_length(waves);
  REQUIRE(run > 2);
  const Comparison comparison = compare(std::vector{solo_of("Edda", waves), solo_of("Finn", waves)}, quickly);
  CHECK(comparison.solos[0].values.front().block == run);
  CHECK(comparison.cautions.empty());

  ComparedSolo brief = solo_of("Greta", waves);
  brief.bars = static_cast<int>(2 * run) - 1;
  const Comparison warned = compare(std::vector{solo_of("Edda", waves), brief}, quickly);
  CHECK(warned.cautions ==
        std::vector{"Greta has only " + std::to_string(brief.bars) + " bars, fewer than two of the runs of " +
                    std::to_string(run) + " that they would be drawn in"});
}

// Two players whose true shares are 0.70 and 0.55, over and over: 95 of 100 intervals should hold 0.15. With 200
// trials the standard error is 1.5 points; the bounds are three of them below and two above.
TEST_CASE("the interval holds the true difference about 95 times in 100") {
  constexpr int trials = 200;
  constexpr double truth = 0.70 - 0.55;
  Draws dice(11, 1);
  int held = 0;
  for (int trial = 0; trial < trials; ++trial) {
    std::vector solos = {ComparedSolo{.name = "B", .bars = 24, .notes = 100, .changes = 20, .figures = {}},
                         ComparedSolo{.name = "A", .bars = 24, .notes = 100, .changes = 20, .figures = {}}};
    solos[0].figures.assign(figure_rows().size(), BarSeries{});
    solos[1].figures.assign(figure_rows().size(), BarSeries{});
    solos[0].figures.front() = played(dice, 24, 0.55);
    solos[1].figures.front() = played(dice, 24, 0.70);
    const auto interval = first_figure(compare(solos, {.resamples = 200, .seed = 1})).interval;
    REQUIRE(interval);
    held += interval->low <= truth && truth <= interval->high ? 1 : 0;
  }
  CHECK(held >= 0.905 * trials);
  CHECK(held <= 0.98 * trials);
}

TEST_CASE("the choruses of a solo share its bars out between them") {
  const Solo solo = insideline::tests::solo_from("G4:1 | C4:4 | D4:4 | E4:1 E4:1 E4:1 E4:1 | F4:4 | G4:2 G4:2", {}, -1);
  insideline::Changes changes;
  changes.bars = {{.onset = 0, .length = 4, .section = {}}, {.onset = 4, .length = 4, .section = {}}};
  changes.spans = {{.chord = insideline::parse_chord_symbol("C").value().value(), .onset = 0, .duration = 4},
                   {.chord = insideline::parse_chord_symbol("G7").value().value(), .onset = 4, .duration = 4}};
  const Harmony harmony = lay_out(changes, solo);
  const auto line = insideline::tests::analysed(solo, harmony);
  const std::vector<ComparedSolo> choruses = compared_choruses(line.solo, line.analysis);
  REQUIRE(choruses.size() == 3);
  CHECK(choruses[0].name == "chorus 1");
  CHECK(choruses[0].bars == 3);  // the pickup with it
  CHECK(choruses[0].notes == 3);
  CHECK(choruses[1].bars == 2);
  CHECK(choruses[1].notes == 5);
  CHECK(choruses[2].bars == 1);
  CHECK(choruses[2].notes == 2);
  const ComparedSolo whole = compared_solo("whole", line.solo, line.analysis);
  for (std::size_t i = 0; i < figure_rows().size(); ++i) {
    BarSeries joined;
    for (const ComparedSolo& chorus : choruses)
      joined.insert(joined.end(), chorus.figures[i].begin(), chorus.figures[i].end());
    CHECK(joined == whole.figures[i]);
  }
}

namespace {

/// Two choruses of A B A, a bar each, after a pickup.
insideline::tests::AnalysedLine lettered_choruses() {
  const Solo solo = insideline::tests::solo_from("G4:1 C4:4 D4:2 F4:2 E4:4 G4:4 B4:4 C5:1 G4:1 E4:1 C4:1", {}, -1);
  insideline::Changes changes;
  const insideline::Chord chord = insideline::parse_chord_symbol("C").value().value();
  Beats now;
  for (const char* name : {"A", "B", "A"}) {
    changes.bars.push_back({.onset = now, .length = 4, .section = name, .meter = {}, .starts_section = true});
    changes.spans.push_back({.chord = chord, .onset = now, .duration = 4});
    now += Beats(4);
  }
  return insideline::tests::analysed(solo, lay_out(changes, solo));
}

/// "section A 5 bars 8 notes": each part.
std::string parts_of(const std::vector<ComparedSolo>& solos) {
  std::string text;
  for (const ComparedSolo& solo : solos)
    text += (text.empty() ? "" : ", ") + solo.name + " " + std::to_string(solo.bars) + " bars " +
            std::to_string(solo.notes) + " notes";
  return text;
}

}  // namespace

TEST_CASE("the sections of a solo share its bars out between them, those of one name together") {
  const auto line = lettered_choruses();
  const std::vector<ComparedSolo> sections = compared_sections(line.solo, line.analysis);
  CHECK(parts_of(sections) == "section A 5 bars 8 notes, section B 2 bars 3 notes");
  const ComparedSolo whole = compared_solo("whole", line.solo, line.analysis);
  for (std::size_t i = 0; i < figure_rows().size(); ++i) {
    BarSeries joined(whole.figures[i].size());
    for (const ComparedSolo& part : sections)
      for (std::size_t bar = 0; bar < part.of_bars.size(); ++bar) joined[part.of_bars[bar]] = part.figures[i][bar];
    CHECK(joined == whole.figures[i]);
  }
}

TEST_CASE("one section is taken out of every chorus") {
  const auto line = lettered_choruses();
  CHECK(parts_of(compared_section_by_chorus(line.solo, line.analysis, "B")) ==
        "chorus 1, B 1 bars 2 notes, chorus 2, B 1 bars 1 notes");
  CHECK(parts_of(compared_section_by_chorus(line.solo, line.analysis, "last A")) ==
        "chorus 1, last A 1 bars 1 notes, chorus 2, last A 1 bars 4 notes");
  CHECK(compared_section_by_chorus(line.solo, line.analysis, "C").empty());
}

TEST_CASE("without letters there are no sections to compare") {
  const auto line = insideline::tests::analysed("C@0 G7@4", "C4:4 D4:4");
  CHECK(compared_sections(line.solo, line.analysis).empty());
}

TEST_CASE("chords that do not go round are one chorus") {
  const auto line = insideline::tests::analysed("C@0 G7@4", "C4:4 D4:4");
  CHECK(compared_choruses(line.solo, line.analysis).size() == 1);
}

TEST_CASE("a chorus of riffs has clearly more notes in riffs than a chorus of lines") {
  const std::string riff = "C5:1/2 Bb4:1/2 G4:1/2 C5:3/2 r:1 ";
  std::string riffs;
  for (int bar = 0; bar < 12; ++bar) riffs += riff;
  const auto random = insideline::tests::random_line(5, 12);
  const auto played = insideline::tests::analysed("C7@0", riffs);
  const auto line = insideline::tests::analysed(random.solo, random.harmony);
  const std::vector solos{compared_solo("riffs", played.solo, played.analysis),
                          compared_solo("lines", line.solo, line.analysis)};
  const Comparison comparison = compare(solos, quickly);
  const auto rows = figure_rows();
  const auto row =
      std::ranges::find_if(rows, [](const auto& figure) { return std::string(figure.key) == "riff_notes"; });
  REQUIRE(row != rows.end());
  const auto index = static_cast<std::size_t>(row - rows.begin());
  CHECK(comparison.solos[0].values[index].value == Approx(1.0));
  CHECK(comparison.solos[1].differences[index].verdict == Verdict::less);
  CHECK(comparison.solos[1].differences[index].interval.has_value());
}
