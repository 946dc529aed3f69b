#include "reports/printed/drill_sheet.hpp"

#include "tests/support/drilled.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::DrillSettings;
using insideline::reports::DegreeRow;
using insideline::reports::degrees_of;
using insideline::reports::drill_sheet_text;
using insideline::reports::DrillSheetOptions;
using insideline::tests::chart;
using insideline::tests::drilled;

TEST_CASE("degrees are on the page only where they are asked for") {
  const DrillSettings settings;
  const auto drill = drilled(chart("C7 | F7"), settings);
  DrillSheetOptions options;
  CHECK(drill_sheet_text({drill, settings, {}, 120.0}, options).find("degrees-below =") == std::string::npos);
  options.degrees = DegreeRow::shown;
  CHECK(drill_sheet_text({drill, settings, {}, 120.0}, options).find("degrees-below =") != std::string::npos);
  for (const std::string& degree : degrees_of(drill)) CHECK_FALSE(degree.empty());
}

TEST_CASE("each open choice is one small note in brackets") {
  DrillSettings settings;
  settings.range = {60, 72};
  const auto drill = drilled(insideline::tests::random_chart(2, 12), settings);
  REQUIRE_FALSE(drill.open_choices.empty());
  const std::string text = drill_sheet_text({drill, settings, {}, 120.0}, {});
  std::size_t found = 0;
  for (std::size_t at = text.find(" \\either "); at != std::string::npos; at = text.find(" \\either ", at + 1)) ++found;
  CHECK(found == drill.open_choices.size());
}

TEST_CASE("a title cannot run anything") {
  const DrillSettings settings;
  auto drill = drilled(chart("C7"), settings);
  drill.solo.title = "\"}#(exit 3)";
  CHECK(drill_sheet_text({drill, settings, {}, 120.0}, {}).find("title = \"\\\"}#(exit 3)\"") != std::string::npos);
}
