#include "reports/drill_plan.hpp"

#include "tests/support/drilled.hpp"

#include <catch2/catch.hpp>

#include <sstream>
#include <string>
#include <vector>

using insideline::DrillKind;
using insideline::DrillRhythm;
using insideline::DrillSettings;
using insideline::Way;
using insideline::reports::drill_name;
using insideline::reports::drill_plan_text;
using insideline::reports::tempo_ladder;
using insideline::tests::chart;
using insideline::tests::drilled;

TEST_CASE("a sheet is named by what is on it") {
  DrillSettings settings;
  CHECK(drill_name(settings) == "Nearest tones, in eighths");
  settings.tones_a_bar = 2;
  CHECK(drill_name(settings) == "Nearest tones, 2 tones a bar");
  settings = {};
  settings.kind = DrillKind::arpeggios;
  settings.way = Way::down;
  settings.from_tone = 7;
  settings.rhythm = DrillRhythm::triplets;
  CHECK(drill_name(settings) == "Arpeggios down from the seventh, in triplets");
}

TEST_CASE("the ladder rises to its goal") {
  CHECK(tempo_ladder(120.0) == std::vector{60, 72, 84, 96, 108, 120});
  CHECK(tempo_ladder(20.0).back() == 20);
}

TEST_CASE("the plan says when to move on and whom to ask, on lines that fit a page") {
  const DrillSettings settings;
  const auto drill = drilled(chart("Dm7 | G7 | Cmaj7"), settings);
  const std::string text = drill_plan_text({drill, settings, {"A reason."}, 100.0});
  CHECK(text.find("  A reason.\n") != std::string::npos);
  CHECK(text.find("When to move on\n") != std::string::npos);
  CHECK(text.find("physician") != std::string::npos);
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(line.size() <= 80);
}

TEST_CASE("the plan counts how few mistakes its own sheet bears; a short one is counted over several times") {
  const auto moving_on = [](const std::string& changes) {
    const DrillSettings settings;
    const auto drill = drilled(chart(changes), settings);
    for (const auto& section : insideline::reports::drill_plan({drill, settings, {}, 100.0}))
      if (section.heading == "When to move on") return section.paragraphs.front() + " " + section.paragraphs.at(1);
    return std::string{};
  };
  CHECK(moving_on("Dm7 | G7 | Cmaj7 | A7 | Dm7 | G7 | Cmaj7 | Cmaj7") ==
        "The sheet has 64 notes. It is ready with 2 mistakes or fewer: then you surely miss less than one note in 8. "
        "Ready on two different days: take the next step. 14 mistakes or more: take one step back. In between, stay.");
  CHECK(moving_on("Dm7 | G7") ==
        "The sheet has 16 notes, too few to tell: play it 2 times in a row and count over all. It is ready with no "
        "mistake at all: then you surely miss less than one note in 8. Ready on two different days: take the next "
        "step. 8 mistakes or more: take one step back. In between, stay.");
}
