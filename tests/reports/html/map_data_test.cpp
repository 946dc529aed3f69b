#include "reports/html/map_data.hpp"

#include "tests/reports/sample_report.hpp"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <string>

#include <catch2/catch.hpp>

using insideline::reports::map_data;
using insideline::tests::report_without_chords;
using insideline::tests::sample_report;
using nlohmann::json;

TEST_CASE("the scripts get every note with what it is and why") {
  const json data = json::parse(map_data(sample_report()));
  REQUIRE(data["notes"].size() == 13);
  const json& words = data["words"];
  const json& note = data["notes"][6];
  CHECK(note[0] == 3.5);
  CHECK(note[1] == 0.5);
  CHECK(note[2] == 73);
  CHECK(words[note[3].get<std::size_t>()] == "Db5");
  CHECK(words[note[5].get<std::size_t>()] == "the and of 4");
  CHECK(words[note[6].get<std::size_t>()] == "7");
  CHECK(data["chords"][note[7].get<std::size_t>()][0] == "Dm7");
  CHECK(words[note[8].get<std::size_t>()] == "non-chord tone");
  CHECK(words[note[9].get<std::size_t>()] == "passing tone");
  CHECK(words[note[10].get<std::size_t>()] == "");
  CHECK(note[11] == 87);
  CHECK(words[note[12].get<std::size_t>()] == "a passing tone, \"by hand\"");
}

TEST_CASE("the connection into a note is told in words") {
  const json data = json::parse(map_data(sample_report()));
  CHECK(data["words"][data["notes"][7][13].get<std::size_t>()] == "7 to 3, whole step, guide tone");
  CHECK(data["words"][data["notes"][8][13].get<std::size_t>()] == "");
}

TEST_CASE("chords are given with what is needed to sound them") {
  const json data = json::parse(map_data(sample_report()));
  CHECK(data["chords"][1] == json::parse(R"(["G7", 4.0, 4.0, [7, 11, 2, 5], 7])"));
  CHECK(data["bars"][2] == json::parse("[3, 8.0, 4.0, 1.0]"));
  CHECK(data["tempo"] == 120.0);
  REQUIRE(data["phrases"].size() == sample_report().analysis.phrases.size());
  for (const json& phrase : data["phrases"]) CHECK(phrase[0] < phrase[1]);
}

TEST_CASE("sections are given from beat to beat, and who may read the page") {
  auto report = sample_report();
  report.analysis.harmony.sections = {{.name = "A", .onset = 0, .duration = 8, .first_bar = 1, .last_bar = 2}};
  const json data = json::parse(map_data(report));
  CHECK(data["sections"] == json::parse(R"([["A", 0.0, 8.0]])"));
  CHECK(data["readers"][0] == json::parse(R"(["concert pitch", -1, 0])"));
  const json& tenor =
      *std::ranges::find_if(data["readers"], [](const json& reader) { return reader[0] == "Tenor saxophone"; });
  CHECK(tenor[2] == 1);
  const json& names = data["names"][tenor[1].get<std::size_t>()];
  CHECK(names[0] == "D");
  CHECK(names[1][1] == "A7");
  CHECK(data["words"][names[2][6].get<std::size_t>()] == "Eb5");
}

TEST_CASE("what is played sounds the same in whatever pitch the page is read") {
  auto report = sample_report();
  report.reading.above_sounding = {5, 9};
  for (auto& note : report.solo.notes) note.pitch = transposed(note.pitch, report.reading.above_sounding);
  for (auto& sounding : report.analysis.harmony.chords)
    sounding.chord = transposed(sounding.chord, report.reading.above_sounding);
  const json read = json::parse(map_data(report));
  const json concert = json::parse(map_data(sample_report()));
  CHECK(read["words"][read["notes"][6][3].get<std::size_t>()] == "Bb5");
  for (std::size_t i = 0; i < 13; ++i) CHECK(read["notes"][i][2] == concert["notes"][i][2]);
  CHECK(read["chords"][1] == json::parse(R"(["E7", 4.0, 4.0, [7, 11, 2, 5], 7])"));
}

TEST_CASE("a note without a chord has none, and bytes that are no text do not matter") {
  auto report = report_without_chords();
  report.analysis.labels[0].reason = "\xff";
  const json data = json::parse(map_data(report));
  CHECK(data["notes"][0][7] == -1);
  CHECK(data["words"][data["notes"][0][12].get<std::size_t>()] == "\uFFFD");
}
