#include "reports/printed/worksheet_tasks.hpp"

#include "tests/reports/sample_report.hpp"

#include <catch2/catch.hpp>

using Catch::Matchers::Contains;
using insideline::reports::ChordRow;
using insideline::reports::excerpt_of;
using insideline::reports::HandoutOptions;
using insideline::reports::Marks;
using insideline::reports::marks_of;
using insideline::reports::places_text;
using insideline::reports::Report;
using insideline::reports::Sheet;
using insideline::reports::Task;
using insideline::reports::tasks_without_finds;
using insideline::reports::worksheet_tasks;
using insideline::tests::sample_report;

namespace {

std::string texts_of(const std::vector<Task>& tasks) {
  std::string text;
  for (const Task& task : tasks) text += task.instruction + " = " + task.answer + "\n";
  return text;
}

Sheet sheet_of(const Report& report) { return {report, {}, *excerpt_of(report.solo, std::nullopt)}; }

}  // namespace

TEST_CASE("tasks ask for what is in the solo, and say how much of it and where") {
  const Report report = sample_report();
  CHECK(texts_of(worksheet_tasks(sheet_of(report))) ==
        "Write under every note which degree of its chord it is. (12 notes) = "
        "The degrees stand under the notes; a box is a tension, parentheses a non-chord tone.\n"
        "Circle the thirds of the chords. (3 thirds) = 3 thirds: bars 1 (1&), 2 (1, 4&)\n"
        "Bracket every arpeggio that goes up through three tones or more, and write its degrees at the bracket. "
        "(1 arpeggio up) = 1 arpeggio up: bar 1 (1)\n"
        "Draw an arrow wherever the line takes the nearest tone of the next chord, or keeps a common one: 1 change "
        "of chord to look at. (1 arrow) = 1 arrow: bar 2 (1)\n"
        "Write PT over every passing tone: by step through, from one tone to another. (1 passing tone) = "
        "1 passing tone: bar 1 (4&)\n"
        "Write ANT over a note that arrives before its chord does. (1 anticipation) = 1 anticipation: bar 2 (4&)\n"
        "Write T over every tension that the line keeps as a colour. (2 tensions) = 2 tensions: bars 1 (3), 2 (3&)\n");
}

TEST_CASE("the key draws what the tasks ask for, as often as they say") {
  const Report report = sample_report();
  const Marks marks = marks_of(worksheet_tasks(sheet_of(report)));
  CHECK(marks.degrees.size() == 12);
  CHECK(marks.rings.size() == 3);
  CHECK(marks.brackets.size() == 1);
  CHECK(marks.arrows.size() == 1);
  CHECK(marks.words.size() == 4);
  CHECK(marks.coloured.empty());
  HandoutOptions only_thirds;
  only_thirds.tasks = {{"thirds", "", ""}};
  const Marks few = marks_of(worksheet_tasks({report, only_thirds, *excerpt_of(report.solo, std::nullopt)}));
  CHECK(few.rings.size() == 3);
  CHECK(few.degrees.empty());
  CHECK(few.brackets.empty());
}

TEST_CASE("without chord symbols nothing is asked for that needs them") {
  const Report report = sample_report();
  HandoutOptions options;
  options.chords = ChordRow::left_out;
  const auto tasks = worksheet_tasks({report, options, *excerpt_of(report.solo, std::nullopt)});
  CHECK(texts_of(tasks) ==
        "Bracket every arpeggio that goes up through three tones or more. (1 arpeggio up) = 1 arpeggio up: bar 1 (1)\n"
        "Write the chord symbols over the bars: what does the line alone say? (3 chords) = "
        "The symbols stand over the line.\n");
  CHECK(tasks.back().asks_for_chords);
}

TEST_CASE("a line down and up again is asked for both ways") {
  Report report = sample_report();
  report.analysis.arpeggios[0].legs = {{.first = 0, .last = 2, .direction = insideline::Direction::ascending},
                                       {.first = 1, .last = 3, .direction = insideline::Direction::descending}};
  HandoutOptions options;
  options.tasks = {{"arpeggios down", "", ""}, {"arpeggios up", "", ""}};
  const Marks marks = marks_of(worksheet_tasks({report, options, *excerpt_of(report.solo, std::nullopt)}));
  REQUIRE(marks.brackets.size() == 2);
  CHECK(marks.brackets[0].notes == std::vector<std::size_t>{0, 1, 2});
  CHECK(marks.brackets[1].straight_down);
}

TEST_CASE("suspensions and side-slips are asked for where the solo has them") {
  Report report = sample_report();
  report.analysis.labels[8].placement = insideline::Placement::suspension;
  report.analysis.outside_events = {{.first = 7, .last = 9, .chord = 1, .semitones = 1, .plays = "Ab7"}};
  CHECK_THAT(texts_of(worksheet_tasks(sheet_of(report))),
             Contains("(1 side-slip) = 1 side-slip: bar 2 (1); it plays Ab7"));
  HandoutOptions options;
  options.tasks = {{"suspensions", "", ""}, {"", "Sing it.", "aloud"}, {"chords", "", ""}, {"enclosures", "", ""}};
  const auto tasks = worksheet_tasks({report, options, *excerpt_of(report.solo, std::nullopt)});
  REQUIRE(tasks.size() == 3);  // there is no enclosure to find
  CHECK(tasks[0].answer == "1 suspension: bar 2 (3)");
  CHECK(tasks[1].instruction == "Sing it.");
  CHECK(tasks[1].answer == "aloud");
  CHECK(tasks_without_finds(report, options) == std::vector<std::string>{"enclosures"});
}

TEST_CASE("enclosures are counted by figures, and the key marks both sides of each, a chord tone among them") {
  Report report = sample_report();
  auto& labels = report.analysis.labels;
  labels[1].figure = insideline::Figure::enclosure;
  labels[1].resolves_to = 2;  // note 0, a tone of its chord, is the other side
  HandoutOptions options;
  options.tasks = {{"enclosures", "", ""}};
  const auto tasks = worksheet_tasks({report, options, *excerpt_of(report.solo, std::nullopt)});
  REQUIRE(tasks.size() == 1);
  CHECK_THAT(tasks[0].instruction, Contains("both of them. (1 enclosure)"));
  CHECK(tasks[0].answer == "1 enclosure: bar 1 (1)");
  CHECK(tasks[0].marks.words.at(0) == std::vector<std::string>{"ENC"});
  CHECK(tasks[0].marks.words.at(1) == std::vector<std::string>{"ENC"});
  CHECK(tasks[0].marks.words.size() == 2);
}

TEST_CASE("what is not on the sheet is not asked for") {
  const Report report = sample_report();
  const auto excerpt = excerpt_of(report.solo, insideline::reports::BarRange{3, 3});
  REQUIRE(excerpt);
  const auto tasks = worksheet_tasks({report, {}, *excerpt});
  REQUIRE(tasks.size() == 1);
  CHECK(tasks[0].instruction == "Write under every note which degree of its chord it is. (1 note)");
}

TEST_CASE("places are bars, with their beats in parentheses") {
  const Report report = sample_report();
  CHECK(places_text(sheet_of(report), {0, 1, 7}) == "1 (1, 1&), 2 (1)");
  CHECK(places_text(sheet_of(report), {}).empty());
}
