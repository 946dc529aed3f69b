#include "reports/survey/survey_report.hpp"
#include "tests/reports/survey/sample_collection.hpp"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

using insideline::reports::collection_sentences;
using insideline::reports::survey_work_text;
using insideline::reports::SurveyWork;

namespace {

insideline::reports::CollectionReport collection_without_solos(const std::string& grouped_by) {
  insideline::reports::CollectionReport report;
  report.grouped_by = grouped_by;
  return report;
}

}  // namespace

TEST_CASE("a collection is first told in sentences") {
  const auto sentences = collection_sentences(insideline::tests::sample_collection());
  REQUIRE(sentences.size() == 3);
  CHECK(sentences[0] == "The collection has 3 solos by 2 players: 300 notes in 44 bars.");
  CHECK(sentences[1] == "The most frequent cells are 3-5 (12 times in 3 solos).");
  CHECK(sentences[2] == "The most frequent arpeggios are 3-5-b7 (4 times in 2 solos).");
}

TEST_CASE("an empty collection says so and no more") {
  const auto sentences = collection_sentences(collection_without_solos("folder"));
  REQUIRE(sentences.size() == 1);
  CHECK(sentences[0] == "The collection has no solos in no folders: no notes in no bars.");
}

TEST_CASE("how the work went names every file that was not used, and copies") {
  SurveyWork work;
  work.folders = {"solos"};
  work.found = 7;
  work.analysed = 1;
  work.unchanged = 1;
  work.no_scores = 1;
  work.elsewhere = 2;
  work.twice = {{"b.mid", "a.mid"}};
  work.failed = {{"bad\nname.mid", "the file is empty"}};
  CHECK(survey_work_text(work) ==
        "In solos: 7 files, of them 1 analysed now, 1 unchanged and not analysed again, 2\n"
        "of other parts of this collection, 1 the same as another, 1 no score (.xml of\n"
        "another kind) and 1 not used.\n"
        "\nThe same solo twice, counted once\n  b.mid is the same as a.mid\n"
        "\nNot used: 1 file\n  bad name.mid: the file is empty\n");
}

TEST_CASE("from four solos on, sentences say where half of them lie") {
  auto report = insideline::tests::sample_collection();
  report.figures.front() =
      insideline::figure_overview(0, std::vector<insideline::SoloValue>{{0, 0.4}, {1, 0.5}, {2, 0.6}, {0, 0.9}}, {});
  CHECK(collection_sentences(report)[1] ==
        "Chord tones: half of the solos lie between 48 % and 68 %, the median is 55 %.");
}
