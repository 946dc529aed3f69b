#include "reports/comparison/sentences.hpp"

#include "tests/reports/comparison/sample_comparison.hpp"

#include <algorithm>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::BarSeries;
using insideline::figure_rows;
using insideline::FigureRow;
using insideline::FigureValue;
using insideline::Interval95;
using insideline::Verdict;
using insideline::reports::ComparisonReport;
using insideline::reports::Occasion;
using insideline::tests::figure_index;
using insideline::tests::sample_comparison;
using insideline::tests::sixteen_bars;

namespace {

FigureValue value_of(double part, double whole) { return {.sum = {part, whole}, .value = part / whole}; }

/// Anke's and Bjarne's `key`, with this difference and interval as if it had come out so.
std::string sentence(const std::string& key, const FigureValue& anke, const FigureValue& bjarne,
                     const Interval95& interval, Occasion occasion = Occasion::solos) {
  ComparisonReport report = sample_comparison({{"Anke", sixteen_bars({3})}, {"Bjarne", sixteen_bars({3})}}, occasion);
  const std::size_t row = figure_index(key);
  report.comparison.solos[0].values[row] = anke;
  report.comparison.solos[1].values[row] = bjarne;
  report.comparison.solos[1].differences[row] = {.difference = *bjarne.value - *anke.value,
                                                 .interval = interval,
                                                 .verdict = interval.low > 0    ? Verdict::more
                                                            : interval.high < 0 ? Verdict::less
                                                                                : Verdict::no_clear_difference};
  return sentence_about(report, 1, row);
}

}  // namespace

TEST_CASE("a clear difference is said with both shares, their counts, and how large it may be") {
  CHECK(sentence("chord_tones_on_beat", value_of(48, 83), value_of(50, 70), {.low = 0.058, .high = 0.204}) ==
        "Bjarne plays clearly more chord tones on the beat: 71 % (50 of 70) against 58 % (48 of 83); the difference is "
        "between 6 and 20 points.");
  CHECK(
      sentence("chord_tones_on_beat", value_of(50, 70), value_of(48, 83), {.low = -0.204, .high = -0.058}) ==
      "Bjarne plays clearly fewer chord tones on the beat: 58 % (48 of 83) against 71 % (50 of 70); the difference is "
      "between 6 and 20 points.");
}

TEST_CASE("a difference that is not clear says what it may be") {
  CHECK(sentence("thirds_given", value_of(20, 25), value_of(22, 25), {.low = -0.05, .high = 0.21}) ==
        "No clear difference in chords that get their third: 88 % (22 of 25) against 80 % (20 of 25); the difference "
        "may be anything from -5 to +21 points.");
}

TEST_CASE("what is no share is said in its own measure") {
  CHECK(
      sentence("notes_a_bar", value_of(80, 16), value_of(112, 16), {.low = 1.2, .high = 2.9}) ==
      "Bjarne plays clearly more notes to a bar: 7.0 a bar against 5.0 a bar; the difference is between 1.2 and 2.9 a "
      "bar.");
  CHECK(sentence("wait_for_guide_tone", value_of(10, 20), value_of(4, 20), {.low = -0.6, .high = -0.04}) ==
        "Bjarne gets to the third or seventh of a chord clearly sooner: 0.2 beats against 0.5 beats; the difference is "
        "between 0.04 and 0.6 beats.");
  CHECK(sentence("arpeggio_time", value_of(10, 40), value_of(30, 40), {.low = 0.31, .high = 0.68}) ==
        "Bjarne spends clearly more of the time in arpeggios: 75 % (30 of 40 beats) against 25 % (10 of 40 beats); the "
        "difference is between 31 and 68 points.");
}

TEST_CASE("a difference that is clear only just does not say that it may be nothing") {
  CHECK(sentence("notes_a_bar", value_of(80, 16), value_of(112, 16), {.low = 0.001, .high = 2.9}) ==
        "Bjarne plays clearly more notes to a bar: 7.0 a bar against 5.0 a bar; the difference is between just above 0 "
        "and "
        "2.9 a bar.");
}

TEST_CASE("two takes of one player are spoken of as the earlier and the later") {
  CHECK(sentence("tensions", value_of(2, 80), value_of(16, 80), {.low = 0.08, .high = 0.27}, Occasion::before_after) ==
        "The later take plays clearly more tensions: 20 % (16 of 80) against 3 % (2 of 80) before; the difference is "
        "between 8 and 27 points.");
}

TEST_CASE("a difference is never rounded away to nothing") {
  const FigureRow& share = figure_rows()[figure_index("chord_tones")];
  const FigureRow& number = figure_rows()[figure_index("notes_a_bar")];
  const auto [difference, in_points, as_number] = GENERATE(table<double, std::string, std::string>({
      {0.0, "0", "0"},
      {0.134, "+13", "+0.1"},
      {-0.134, "-13", "-0.1"},
      {0.004, "+0.4", "0"},
      {-0.03, "-3", "-0.03"},
      {2.0, "+200", "+2.0"},
  }));
  CHECK(insideline::reports::difference_text(share, difference) == in_points);
  CHECK(insideline::reports::difference_text(number, difference) == as_number);
}

TEST_CASE("findings sort the figures by what can be said of them") {
  const ComparisonReport clear =
      sample_comparison({{"Anke", sixteen_bars({1, 2})}, {"Bjarne", sixteen_bars({4, 5, 4})}});
  const auto more = findings_about(clear, 1);
  CHECK(more.clear.size() > 20);
  CHECK(more.clear.front().starts_with("Bjarne plays clearly more chord tones: "));
  CHECK(more.clear_details.front() == "chord tones by time (86 %, not 30 %)");
  CHECK(more.not_clear.empty());
  CHECK(more.details_not_clear == 0);

  const ComparisonReport alike =
      sample_comparison({{"Anke", sixteen_bars({1, 4, 2})}, {"Bjarne", sixteen_bars({2, 3})}});
  const auto same = findings_about(alike, 1);
  CHECK(same.clear.empty());
  CHECK(same.not_clear.size() == more.clear.size());
  CHECK(same.details_not_clear == static_cast<int>(more.clear_details.size()));

  const ComparisonReport few = sample_comparison({{"Anke", sixteen_bars({1})}, {"Bjarne", BarSeries{{1, 2}, {0, 2}}}});
  CHECK(findings_about(few, 1).too_few.size() == more.clear.size());

  const ComparisonReport none = sample_comparison({{"Anke", sixteen_bars({0})}, {"Bjarne", sixteen_bars({0})}});
  const auto nothing = findings_about(none, 1);
  CHECK(std::ranges::find(nothing.in_neither, "tensions") != nothing.in_neither.end());
  CHECK(std::ranges::find(nothing.not_clear, "notes to a bar") != nothing.not_clear.end());
}

TEST_CASE("many looks are owned up to") {
  const ComparisonReport report = sample_comparison({{"Anke", sixteen_bars({1, 4})}, {"Bjarne", sixteen_bars({2, 3})}});
  REQUIRE(report.comparison.solos[1].judged == 63);
  CHECK(insideline::reports::many_looks(report) ==
        "63 comparisons could be judged. If there were no difference at all, about 3 of them would still look clear by "
        "luck.");
  CHECK(insideline::reports::how_sure(report).find("drawn again 200 times") != std::string::npos);
}

TEST_CASE("the title names the solos") {
  const BarSeries bars = sixteen_bars({3});
  CHECK(comparison_title(sample_comparison({{"Anke", bars}, {"Bjarne", bars}, {"Carla", bars}})) ==
        "Anke, Bjarne and Carla side by side");
  const ComparisonReport choruses = sample_comparison({{"chorus 1", bars}, {"chorus 2", bars}}, Occasion::choruses);
  CHECK(comparison_title(choruses) == choruses.read.front().solo.title + ": 2 choruses side by side");
  CHECK(subject(choruses, 1) == "Chorus 2");
}
