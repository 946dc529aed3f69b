#include "reports/survey/survey_report.hpp"
#include "tests/reports/survey/sample_collection.hpp"

#include <catch2/catch.hpp>

#include <sstream>
#include <string>

using Catch::Contains;
using insideline::reports::collection_text;
using insideline::reports::Colour;
using insideline::reports::Depth;
using insideline::reports::standing_text;

TEST_CASE("the short text has the main figures, the long one everything") {
  const auto report = insideline::tests::sample_collection();
  const std::string brief = collection_text(report, Depth::main_figures, Colour::off);
  CHECK_THAT(brief, Contains("  chord tones                         3       30 %       50 %       70 %\n"));
  CHECK_THAT(brief, !Contains("chord tones by time") && !Contains("Cells, the most frequent"));
  const std::string whole = collection_text(report, Depth::everything, Colour::off);
  CHECK_THAT(whole, Contains("chord tones by time") && Contains("Chord tones by player"));
  CHECK_THAT(whole, Contains("Solos that stand apart\n  chord tones: s/Bo/<b>.mid (75 %)\n"));
  CHECK_THAT(whole, Contains("  3-5                     12 in 3 solos\n"));
}

TEST_CASE("no line of the text is wider than a page") {
  std::istringstream lines(collection_text(insideline::tests::sample_collection(), Depth::everything, Colour::off));
  for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 80);
}

TEST_CASE("a solo's place is told among those that have the figure") {
  const std::string text =
      standing_text("solos.db", {{.row = 0, .value = 0.8, .below = 0.65, .median = 0.7, .solos = 20}});
  CHECK_THAT(text, Contains("Among the 20 solos of solos.db\n"));
  CHECK_THAT(text, Contains("  chord tones                         80 %     70 %  65 of 100\n"));
  CHECK(standing_text("empty.db", {}) == "empty.db has no solos to stand among.\n");
}
