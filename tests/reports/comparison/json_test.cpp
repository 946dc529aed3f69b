#include "reports/comparison/comparison_report.hpp"
#include "tests/reports/comparison/sample_comparison.hpp"

#include <nlohmann/json.hpp>
#include <string>

#include <catch2/catch.hpp>

using insideline::reports::comparison_json;
using insideline::reports::Occasion;
using insideline::tests::figure_index;
using insideline::tests::sample_comparison;
using insideline::tests::sixteen_bars;

TEST_CASE("the comparison file has every figure of every solo and what sets it apart from the first") {
  const auto file =
      nlohmann::json::parse(comparison_json(sample_comparison({{"Anke", sixteen_bars({1, 2})},
                                                               {"Bjarne \"the \n line\"", sixteen_bars({4, 5})},
                                                               {"Carla", sixteen_bars({2, 1, 1})}})));
  CHECK(file["format"] == "insideline-comparison");
  CHECK(file["version"] == 3);
  CHECK(file["occasion"] == "solos");
  CHECK(file["method"]["resamples"] == 200);
  CHECK(file["solos"].size() == 3);
  CHECK(file["solos"][1]["name"] == "Bjarne \"the \n line\"");
  CHECK(file["solos"][0]["judged"] == 0);
  CHECK(file["solos"][1]["judged"] == insideline::figure_rows().size());
  REQUIRE(file["figures"].size() == insideline::figure_rows().size());
  const auto& figure = file["figures"][figure_index("chord_tones")];
  CHECK(figure["unit"] == "share of notes");
  CHECK(figure["values"][0]["part"] == 24);
  CHECK(figure["values"][0]["of"] == 80);
  CHECK(figure["values"][1]["value"] == 0.9);
  CHECK(figure["against_first"][0]["solo"] == 1);
  CHECK(figure["against_first"][0]["verdict"] == "clearly more");
  CHECK(figure["against_first"][0]["difference"] == Approx(0.6));
  CHECK(figure["against_first"][0]["interval"][0].get<double>() > 0.4);
  CHECK(figure["against_first"][1]["verdict"] == "no clear difference");
  CHECK(figure["against_first"][1]["sentence"].get<std::string>().starts_with("No clear difference in chord tones: "));
}

TEST_CASE("what cannot be judged is null in the comparison file") {
  const auto file = nlohmann::json::parse(comparison_json(
      sample_comparison({{"Anke", sixteen_bars({0})}, {"Bjarne", {{0, 3}, {0, 0}}}, {"Carla", {{0, 0}}}})));
  const auto& figure = file["figures"][figure_index("tensions")];
  CHECK(figure["against_first"][0]["verdict"] == "in neither");
  CHECK(figure["against_first"][0]["interval"].is_null());
  CHECK(figure["values"][2]["value"].is_null());
  CHECK(figure["against_first"][1]["verdict"] == "too few");
  CHECK(figure["against_first"][1]["difference"].is_null());
}

TEST_CASE("the comparison file says what is compared") {
  const auto occasion = [](Occasion what) {
    return nlohmann::json::parse(
        comparison_json(sample_comparison({{"a", sixteen_bars({3})}, {"b", sixteen_bars({3})}}, what)))["occasion"];
  };
  CHECK(occasion(Occasion::before_after) == "before and after");
  CHECK(occasion(Occasion::choruses) == "choruses");
}

TEST_CASE("the comparison file says of each bar that two solos share how far they are apart") {
  auto report = sample_comparison({{"Anke", sixteen_bars({3})}, {"Bjarne", sixteen_bars({3})}});
  report.read[1].solo.notes[0].pitch = {{insideline::Step::e, 0}, 4};
  report.read[1].analysis.labels[1].role = insideline::Role::tension;
  const auto file = nlohmann::json::parse(comparison_json(report));
  REQUIRE(file["same_bars"].size() == 1);
  const auto& pair = file["same_bars"][0];
  CHECK(pair["solo"] == 1);
  CHECK(pair["talk_about"] == nlohmann::json::array({1}));
  REQUIRE(pair["bars"].size() == 3);
  const auto& bar = pair["bars"][0];
  CHECK(bar["bar_of_first"] == 1);
  CHECK(bar["bar"] == 1);
  CHECK(bar["other_pitch"] == 1);
  CHECK(bar["other_role"] == 1);
  CHECK(bar["same"] == 5);
  CHECK(bar["only_first"] == 0);
  CHECK(bar["difference"] == Approx(1.0 / 7));
  CHECK(pair["bars"][1]["difference"] == 0);
}

TEST_CASE("sections are different parts of the form and have no same bars") {
  const auto report = sample_comparison({{"A", sixteen_bars({3})}, {"B", sixteen_bars({3})}}, Occasion::sections);
  CHECK(nlohmann::json::parse(comparison_json(report))["same_bars"].empty());
}
