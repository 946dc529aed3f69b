#include "reports/comparison/interval_plot.hpp"

#include "tests/reports/comparison/sample_comparison.hpp"

#include <string>

#include <catch2/catch.hpp>

using insideline::reports::interval_plot;
using insideline::tests::figure_index;
using insideline::tests::sample_comparison;
using insideline::tests::sixteen_bars;

TEST_CASE("a difference stands right of the middle where the solo has more, and its bar is as long as it may be") {
  auto report = sample_comparison({{"Anke", sixteen_bars({3})}, {"Bjarne", sixteen_bars({3})}});
  for (auto& difference : report.comparison.solos[1].differences) difference = {};
  report.comparison.solos[1].differences[figure_index("tensions")] = {
      .difference = 0.2,
      .interval = insideline::Interval95{.low = 0.1, .high = 0.4},
      .verdict = insideline::Verdict::more};
  const std::string plot = interval_plot(report, 1).html();
  // The axis goes from -40 to +40 points: -40 stands at 0 %, the middle at 50 %, +10 at 62.5 %.
  CHECK(plot.find("<rect x=\"62.50%\"") != std::string::npos);
  CHECK(plot.find("width=\"37.50%\"") != std::string::npos);
  CHECK(plot.find("cx=\"75.00%\"") != std::string::npos);
  CHECK(plot.find("tensions: +20 (+10 to +40) clear") != std::string::npos);
  CHECK(plot.find("which 1 of 1 are") != std::string::npos);
}

TEST_CASE("figures that are no shares are left to the table") {
  const std::string plot =
      interval_plot(sample_comparison({{"Anke", sixteen_bars({1, 2})}, {"Bjarne", sixteen_bars({4, 5})}}), 1).html();
  CHECK(plot.find("chord tones on the beat: ") != std::string::npos);
  CHECK(plot.find("notes to a bar") == std::string::npos);
  CHECK(plot.find("chord tones by time") == std::string::npos);
}
