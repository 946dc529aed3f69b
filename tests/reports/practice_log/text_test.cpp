#include "reports/practice_log/log_report.hpp"
#include "reports/text/display_width.hpp"

#include <algorithm>
#include <nlohmann/json.hpp>
#include <regex>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using Catch::Contains;
using insideline::LoggedTake;
using insideline::reports::Colour;
using insideline::reports::practice_log_csv;
using insideline::reports::practice_log_json;
using insideline::reports::practice_log_page;
using insideline::reports::practice_log_text;
using insideline::reports::PracticeLogReport;

namespace {

const std::string odd_name = "=Red \"the <Rope>\"\nO'Brine of the long far away harbour";

LoggedTake take_of(const std::string& player, const std::string& day, double tempo_bpm, int right) {
  LoggedTake take;
  take.player = player;
  take.day = day;
  take.sheet = "Quay <Steps> (sheet.musicxml)";
  take.sheet_id = std::string(32, 'a');
  take.take = "take.mid";
  take.tempo_bpm = tempo_bpm;
  take.right = {right, 96};
  take.down = {right / 2, 48};
  return take;
}

/// Anke was ready at 60 on two days and then broke off at 72.
std::vector<LoggedTake> takes_of_anke() {
  LoggedTake broken = take_of("Anke", "2026-11-22", 72.0, 96);
  broken.whole = false;
  return {take_of("Anke", "2026-11-20", 60.0, 94), take_of("Anke", "2026-11-21", 60.2, 95), broken};
}

PracticeLogReport report_of(const std::vector<LoggedTake>& takes) {
  PracticeLogReport report;
  report.log = "class.log";
  report.players = insideline::progress_of(takes, report.bound);
  return report;
}

LoggedTake with_fault(double strays_percent, double spread_percent) {
  LoggedTake take = take_of("Anke", "2026-11-20", 60.0, 96);
  take.tempo_strays_percent = strays_percent;
  take.tempo_jumps = 0;
  take.spread_percent = spread_percent;
  take.added = 0;
  return take;
}

PracticeLogReport a_class() {
  std::vector<LoggedTake> takes = takes_of_anke();
  LoggedTake without_tempo = take_of("", "2026-11-23", 0.0, 40);
  without_tempo.tempo_bpm.reset();
  takes.push_back(without_tempo);
  takes.push_back(take_of(odd_name, "2026-11-24", 66.0, 50));
  return report_of(takes);
}

}  // namespace

TEST_CASE("one player is told take by take, and what was reached") {
  const std::string text = practice_log_text(report_of(takes_of_anke()), Colour::off);
  CHECK_THAT(text, Contains("Anke: 3 takes on 3 days, from 2026-11-20 to 2026-11-22"));
  CHECK_THAT(text, Contains("2026-11-20   60 bpm  ██████████   94 of 96   ready        down 47/48"));
  CHECK_THAT(text, Contains("2026-11-22   72 bpm  ██████████   96 of 96   broken off   down 48/48"));
  CHECK_THAT(text, Contains("Ready on two different days at 60 bpm. The log says: the whole sheet first"));
  CHECK_THAT(text, Contains("ask your teacher or a physician"));
}

TEST_CASE("a class is told a line for each player, whatever they are called") {
  const std::string text = practice_log_text(a_class(), Colour::off);
  CHECK_THAT(text, Contains("class.log: 3 players, 5 takes, from 2026-11-20 to 2026-11-24"));
  CHECK_THAT(text, Contains("  Anke                     3     3  2026-11-22  1 of 1   72 bpm, broken off\n"));
  CHECK_THAT(text, Contains("  (no name)                1     1  2026-11-23  0 of 1   no tempo, not ready\n"));
  CHECK_THAT(text, Contains("  =Red \"the <Rope>\"...     1     1  2026-11-24  0 of 1   66 bpm, not ready\n"));
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) CHECK(insideline::reports::display_width(line) <= 80);
}

TEST_CASE("without a tempo the log says why the take does not count") {
  LoggedTake take = take_of("Anke", "2026-11-20", 60.0, 96);
  take.tempo_bpm.reset();
  CHECK_THAT(practice_log_text(report_of({take}), Colour::off), Contains("nobody knows the tempo of the last take"));
}

TEST_CASE("the page of a log has a table of the class and plots for each player, and runs nothing of a name") {
  const std::string page = practice_log_page(a_class());
  CHECK_THAT(page, Contains("Player by player"));
  CHECK_THAT(page, Contains("Days with a take"));
  CHECK_THAT(page, Contains("Right notes"));
  CHECK_THAT(page, Contains("takes that were ready"));
  CHECK_THAT(page, Contains("Ready on two different days at 60 bpm."));
  CHECK_THAT(page, Contains("Quay &lt;Steps&gt;"));
  CHECK_THAT(page, !Contains("<Rope>"));
  CHECK_THAT(page, !Contains("<Steps>"));
}

TEST_CASE("the page of one player has no table of a class") {
  const std::string page = practice_log_page(report_of(takes_of_anke()));
  CHECK_THAT(page, Contains("Practice log of Anke"));
  CHECK_THAT(page, Contains("Tempo"));
  CHECK_THAT(page, !Contains("Player by player"));
}

TEST_CASE("the practice log file has every player, sheet and take") {
  const auto file = nlohmann::json::parse(practice_log_json(a_class()));
  CHECK(file["format"] == "insideline-practice-log");
  CHECK(file["version"] == 1);
  CHECK(file["log"] == "class.log");
  CHECK(file["method"]["one_mistake_in"] == 8);
  REQUIRE(file["players"].size() == 3);
  CHECK(file["players"][0]["player"] == "");
  CHECK(file["players"][1]["player"] == odd_name);
  CHECK(file["players"][2]["sheets_ready"] == 1);
  REQUIRE(file["sheets"].size() == 3);
  CHECK(file["sheets"][0]["ready_bpm"].is_null());
  CHECK(file["sheets"][0]["next"] == "slower");
  CHECK(file["sheets"][2]["ready_bpm"] == Approx(60.2));
  CHECK(file["sheets"][2]["next"] == "the whole sheet first");
  REQUIRE(file["takes"].size() == 5);
  CHECK(file["takes"][0]["tempo_bpm"].is_null());
  CHECK(file["takes"][4]["verdict"] == "broken off");
  CHECK(file["takes"][4]["counts"] == false);
  CHECK(file["takes"][4]["whole"] == false);
  CHECK(file["takes"][3]["whole"].is_null());
  CHECK(file["takes"][3]["down"]["of"] == 48);
}

TEST_CASE("the table of a log has one row a take, and a name is no formula in it") {
  const std::string text = practice_log_csv(a_class());
  CHECK_THAT(text, Contains("Anke,2026-11-22,Quay <Steps> (sheet.musicxml)," + std::string(32, 'a') +
                            ",take.mid,72,broken off,no,96,96,0,0,48,48,0,no,,,,\r\n"));
  CHECK_THAT(text, Contains("\"'=Red \"\"the <Rope>\"\"\nO'Brine of the long far away harbour\",2026-11-24"));
  const std::regex row("\r\n");
  CHECK(std::distance(std::sregex_iterator(text.begin(), text.end(), row), std::sregex_iterator()) == 6);
}

TEST_CASE("a take in no one tempo is unsteady, one that limps uneven, and both are told what to do") {
  const auto [strays, spread, word, advice] = GENERATE(table<double, double, std::string, std::string>({
      {6.0, 3.0, "unsteady", "again with a click; it did not hold."},
      {2.0, 13.0, "uneven", "with a click on every eighth; the notes came unevenly."},
      {2.0, 3.0, "ready", "until it is ready on two different days."},
  }));
  const PracticeLogReport report = report_of({with_fault(strays, spread)});
  const std::string text = std::regex_replace(practice_log_text(report, Colour::off), std::regex("\\s+"), " ");
  CHECK_THAT(text, Contains(word) && Contains(advice));
  CHECK_THAT(practice_log_csv(report), Contains(word));
  CHECK_THAT(practice_log_json(report), Contains("\"verdict\": \"" + word + "\""));
}

TEST_CASE("on the page of a class every table has a name of its own, though all played one sheet") {
  const std::string page = practice_log_page(a_class());
  const std::regex named("role=\"region\"[^>]*aria-label=\"([^\"]*)\"");
  std::vector<std::string> names;
  for (auto found = std::sregex_iterator(page.begin(), page.end(), named); found != std::sregex_iterator(); ++found)
    names.push_back((*found)[1]);
  REQUIRE(names.size() >= 4);
  std::ranges::sort(names);
  CHECK(std::ranges::adjacent_find(names) == names.end());
}
