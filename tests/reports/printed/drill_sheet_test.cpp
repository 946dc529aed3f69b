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

TEST_CASE("a change of meter inside the form stands where it comes, and back where it ends") {
  const DrillSettings settings;
  auto changes = chart("C7 | F7 | C7 | F7");
  changes.bars[2].meter = insideline::Meter{3, 4};
  changes.bars[2].length = insideline::Beats(3);
  changes.bars[3].onset = insideline::Beats(11);
  changes.spans[2].duration = insideline::Beats(3);
  changes.spans[3].onset = insideline::Beats(11);
  const std::string text = drill_sheet_text({drilled(changes, settings), settings, {}, 120.0}, {});
  const auto in_bar = [&](int bar, const std::string& words) {
    const std::size_t line = text.find("% bar " + std::to_string(bar), text.find("line = {"));
    return text.substr(line, text.find("|\n", line) - line).find(words) != std::string::npos;
  };
  CHECK(in_bar(1, "\\time 4/4"));
  CHECK_FALSE(in_bar(2, "\\time"));
  CHECK(in_bar(3, "\\time 3/4"));
  CHECK(in_bar(4, "\\time 4/4"));
}
