#include "reports/assessment/assessment_report.hpp"

#include <nlohmann/json.hpp>
#include <string>

#include <catch2/catch.hpp>

using insideline::Broken;
using insideline::TakeGroup;
using insideline::reports::assessment_json;
using insideline::reports::AssessmentReport;

namespace {

TakeGroup group_of(const std::string& name, int right, int of) {
  TakeGroup group;
  group.name = name;
  group.right = {right, of};
  group.wrong = of - right;
  return group;
}

AssessmentReport report_of_a_whole_take() {
  AssessmentReport report;
  report.take_file = "take \"one\".mid";
  report.sheet_title = "Quay Steps";
  report.assessment.all = group_of("all", 94, 96);
  report.assessment.coverage.bars = {12, 12};
  report.assessment.complete = true;
  report.assessment.by_form_bar = {group_of("bar 3 of each A", 7, 9)};
  return report;
}

nlohmann::json json_of(const AssessmentReport& report) { return nlohmann::json::parse(assessment_json(report)); }

}  // namespace

TEST_CASE("the verdict in the file is the one that is printed, with all that it is made of") {
  AssessmentReport report = report_of_a_whole_take();
  CHECK(json_of(report)["verdict"]["readiness"] == "ready");
  SECTION("a break") {
    report.assessment.interruptions = {
        {.how = Broken::stopped, .bar = "4", .on_in = "5", .quarters = 2.5, .after = 30}};
    report.assessment.complete = false;
    const auto json = json_of(report);
    CHECK(json["verdict"]["readiness"] == "not ready");
    CHECK(json["verdict"]["notes_alone"] == "ready");
    CHECK(json["verdict"]["unbroken"] == false);
    CHECK(json["interruptions"][0]["how"] == "stopped");
    CHECK(json["interruptions"][0]["quarters"] == 2.5);
  }
  SECTION("a tempo that jumps") {
    insideline::TempoCourse tempo;
    tempo.tempi = {{"1", 96.0}, {"9", 110.0}};
    tempo.jumps = {{"9", 96.0, 110.0}};
    report.assessment.tempo = tempo;
    const auto json = json_of(report);
    CHECK(json["verdict"]["readiness"] == "not ready");
    CHECK(json["verdict"]["steady"] == false);
    CHECK(json["tempo"]["jumps"][0]["to_bpm"] == 110.0);
    CHECK(json["tempo"]["course"].size() == 2);
  }
}

TEST_CASE("what is not known of a take is null, and groups keep their names and counts") {
  const auto json = json_of(report_of_a_whole_take());
  CHECK(json["tempo"].is_null());
  CHECK(json["evenness"].is_null());
  CHECK(json["on_beat"].is_null());
  CHECK(json["take"] == "take \"one\".mid");
  CHECK(json["by_bar_of_section"][0]["name"] == "bar 3 of each A");
  CHECK(json["by_bar_of_section"][0]["right"] == nlohmann::json{{"count", 7}, {"of", 9}});
}
