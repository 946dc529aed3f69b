#include "reports/printed/drill_sheet.hpp"

#include "tests/support/drilled.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <string>

using insideline::DrillSettings;
using insideline::reports::degree_names;
using insideline::reports::DegreeRow;
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
  for (const std::string& degree : degree_names(drill, settings)) CHECK_FALSE(degree.empty());
}

TEST_CASE(
    "a note that the chord does not have is in parentheses, and the caution stands at the foot and nowhere else") {
  DrillSettings settings;
  settings.kind = insideline::DrillKind::enclosures;
  const auto drill = drilled(chart("Dm7 | G7 | Cmaj7"), settings);
  DrillSheetOptions options;
  options.degrees = DegreeRow::shown;
  const std::string text = drill_sheet_text({drill, settings, {}, 120.0}, options);
  CHECK(text.find("\\concat { \"(\" \\plain-degree") != std::string::npos);
  const auto names = degree_names(drill, settings);
  CHECK(std::ranges::any_of(names, [](const std::string& name) { return name.starts_with("("); }));
  const std::string caution = "Many repetitions of one movement";
  const std::size_t at = text.find(caution);
  REQUIRE(at != std::string::npos);
  CHECK(text.rfind("oddFooterMarkup", at) != std::string::npos);
  CHECK(text.find(caution, at + 1) == std::string::npos);
}

TEST_CASE("a sheet of ten bars is one page, set smaller where it must be, and a long one has the usual size") {
  DrillSettings settings;
  DrillSheetOptions options;
  options.degrees = DegreeRow::shown;
  const auto text_of = [&](const std::string& bars) {
    return drill_sheet_text({drilled(chart(bars), settings), settings, {}, 120.0}, options);
  };
  const std::string ten = text_of("Gm7 | C7 | Fmaj7 | D7b9 | Gm7 | C7 | Am7b5 | D7alt | Gm7 C7 | Fmaj7");
  CHECK(ten.find("(define on-one-page #t)") != std::string::npos);
  std::string long_chart = "Gm7";
  for (int bar = 1; bar < 32; ++bar) long_chart += " | C7";
  const std::string many = text_of(long_chart);
  CHECK(many.find("(define on-one-page #f)") != std::string::npos);
  CHECK(many.find("(set-global-staff-size 19)") != std::string::npos);
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
