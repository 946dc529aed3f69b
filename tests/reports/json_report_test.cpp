#include "reports/json_report.hpp"

#include "tests/reports/sample_report.hpp"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

namespace insideline::tests {
namespace {

using Json = nlohmann::ordered_json;
using Names = std::vector<std::string>;

Json written(const reports::Report& report) { return Json::parse(reports::json_report(report)); }

Names names_of(const Json& object) {
  Names names;
  for (const auto& [name, value] : object.items()) names.push_back(name);
  return names;
}

}  // namespace

TEST_CASE("the analysis file names its format and keeps the order of its fields") {
  const Json json = written(sample_report());
  CHECK(json["format"] == "insideline-analysis");
  CHECK(json["version"] == 4);
  const Names first_fields = {"format",   "version", "source", "meter",     "bars",        "choruses",
                              "warnings", "chords",  "notes",  "arpeggios", "connections", "summary"};
  const Names all = names_of(json);
  REQUIRE(all.size() >= first_fields.size());
  CHECK(Names(all.begin(), all.begin() + 12) == first_fields);
  CHECK(names_of(json["notes"][0]) ==
        Names{"index",  "onset",        "duration", "bar",         "beat",       "grace",
              "midi",   "name",         "written",  "chord",       "governor",   "placement",
              "degree", "role",         "figure",   "resolves_to", "confidence", "role_probability",
              "pinned", "alternatives", "reason"});
}

TEST_CASE("the analysis file says where solo and changes come from") {
  const Json source = written(sample_report())["source"];
  CHECK(
      source.dump() ==
      R"({"solo":"sample.musicxml","changes":"sample.changes","part":"Alto Sax","sounding_minus_written":-9,"title":"Sample","hearing":null,"section":null})");
}

TEST_CASE("guide tones that arrive late stand beside those that are led home at once") {
  reports::Report report = sample_report();
  report.analysis.summary.guide_tone_resolutions = {3, 5};
  report.analysis.summary.guide_tones_late = 2;
  const Json summary = written(report)["summary"];
  CHECK(summary["guide_tone_resolutions"] == 1);
  CHECK(summary["guide_tone_resolutions_counts"] == Json{{"count", 1}, {"of", 5}});
  CHECK(summary["guide_tones_late"] == 2);
}

TEST_CASE("a performance has its time feel and the seconds of its notes in the analysis file") {
  reports::Report report = sample_report();
  CHECK(written(report)["time_feel"].is_null());
  TimeFeel feel;
  feel.on_beat = {.notes = 2, .mean_ms = 12.5, .mean_percent = 2.5};
  feel.by_beat = {{.beat = 3, .lateness = feel.on_beat}};
  report.analysis.time_feel = feel;
  report.solo.performed.assign(report.solo.notes.size(), PerformedNote{.onset_seconds = 1.25, .duration_seconds = 0.5});
  const Json json = written(report);
  CHECK(json["time_feel"]["swing"].is_null());
  CHECK(json["time_feel"]["off_beat"].is_null());
  CHECK(json["time_feel"]["on_beat"]["mean_ms"] == 12.5);
  CHECK(json["time_feel"]["by_beat"][0]["beat"] == 3);
  CHECK(json["notes"][0]["played_seconds"] == 1.25);
  CHECK(json["notes"][0]["held_seconds"] == 0.5);
}

TEST_CASE("a chord in the analysis file has spelled tones and tensions") {
  const Json chord = written(sample_report())["chords"][1];
  CHECK(chord["symbol"] == "G7");
  CHECK(chord["onset"] == "4");
  CHECK(chord["bar"] == 2);
  CHECK(chord["tones"][1].dump() == R"({"degree":"3","name":"B","pitch_class":11})");
  CHECK_FALSE(chord["tensions"].empty());
}

TEST_CASE("a note in the analysis file has exact times, both pitches and its label") {
  const Json notes = written(sample_report())["notes"];
  REQUIRE(notes.size() == 13);
  const Json& early = notes[10];
  CHECK(early["onset"] == "15/2");
  CHECK(early["duration"] == "5/2");
  CHECK(early["beat"] == "9/2");
  CHECK(early["name"] == "E4");
  CHECK(early["written"] == "C#5");
  CHECK(early["midi"] == 64);
  CHECK(early["chord"] == 1);
  CHECK(early["governor"] == 2);
  CHECK(early["placement"] == "anticipation");
  CHECK(early["resolves_to"].is_null());
  CHECK(notes[6]["resolves_to"] == 7);
  CHECK(notes[6]["confidence"] == 0.871235);
  CHECK(notes[6]["alternatives"][0]["figure"] == "approach tone");
  CHECK(notes[11]["grace"] == true);
}

TEST_CASE("an arpeggio in the analysis file says how it runs") {
  const Json arpeggio = written(sample_report())["arpeggios"][0];
  CHECK(arpeggio["degrees"] == Json({"1", "b3", "5", "b7"}));
  CHECK(arpeggio["starts_on"] == "1");
  CHECK(arpeggio["direction"] == "ascending");
  REQUIRE(arpeggio["legs"].size() == 1);
  CHECK(arpeggio["legs"][0].dump() == R"({"first_note":0,"last_note":3,"direction":"ascending","from":"1","to":"b7",)"
                                      R"("inversion":"root position","prepared":false})");
  CHECK(arpeggio["slipped_by"].is_null());
  CHECK(arpeggio["inversion"] == "root position");
  CHECK(arpeggio["spells"] == "Dm7");
}

TEST_CASE("a connection without notes on both sides is there, with nothing known of it") {
  const Json connections = written(sample_report())["connections"];
  CHECK(connections[0]["nearest_down"] == "B4");
  CHECK(connections[0]["took_nearest"] == true);
  CHECK(connections[1]["kind"] == "none");
  for (const auto* field : {"from_note", "to_note", "from_degree", "semitones", "nearest_up", "took_nearest"})
    CHECK(connections[1][field].is_null());
}

TEST_CASE("a side-slip in the analysis file names its notes, the chord under it and the chord it plays") {
  CHECK(written(sample_report())["outside_events"] == Json::array());
  reports::Report report = sample_report();
  report.analysis.outside_events = {{.first = 4, .last = 7, .chord = 0, .semitones = 1, .plays = "Ebm7"},
                                    {.first = 8, .last = 10, .chord = 1, .semitones = -1, .plays = "Gb7"}};
  const Json events = written(report)["outside_events"];
  REQUIRE(events.size() == 2);
  CHECK(events[0].dump() == R"({"first_note":4,"last_note":7,"chord":0,"plays":"Ebm7","semitones":1})");
  CHECK(events[1]["plays"] == "Gb7");
  CHECK(events[1]["semitones"] == -1);
}

TEST_CASE("every share of the summary stands beside its counts, an undefined one is null") {
  const Json summary = written(sample_report())["summary"];
  CHECK(summary["chord_tone_share"] == 0.666667);
  CHECK(summary["chord_tone_share_counts"].dump() == R"({"count":8,"of":12})");
  CHECK(summary["as_heard"]["chord_tones"] == 8);
  CHECK(summary["strict"]["chord_tones"] == 7);
  CHECK(summary["connections_by_kind"]["whole step"] == 1);
  CHECK(summary["arpeggio_shapes"].dump() == R"({"1 b3 5 b7":1})");
  CHECK(summary["tensions_by_degree"].dump() == R"({"9":2})");
  CHECK(summary["chance"]["p_value"] == 0.333333);

  const Json silent = written(report_without_chords())["summary"];
  CHECK(silent["chord_tone_share"].is_null());
  CHECK(silent["chance"]["mean"].is_null());
}

TEST_CASE("each note of the analysis file has a line of its own") {
  std::istringstream lines(reports::json_report(sample_report()));
  int notes = 0;
  for (std::string line; std::getline(lines, line);)
    if (line.starts_with("    { \"index\": ") && line.find("\"midi\"") != std::string::npos) ++notes;
  CHECK(notes == 13);
}

TEST_CASE("a title that is not UTF-8 does not spoil the analysis file") {
  reports::Report report = sample_report();
  report.solo.title = "Caf\xE9 \"Blue\"\n";
  CHECK(written(report)["source"]["title"] == "Caf\xEF\xBF\xBD \"Blue\"\n");
}

TEST_CASE("the meter is listed where it changes") {
  reports::Report report = sample_report();
  report.solo.bars[1].meter = {3, 4};
  report.solo.bars[2].meter = {3, 4};
  CHECK(written(report)["meter"].dump() == R"([{"bar":1,"beats":4,"unit":4},{"bar":2,"beats":3,"unit":4}])");
}

// The schema test sets this variable, and checks what is written here.
TEST_CASE("hand-made reports are written for the check against the schema", "[samples]") {
  const char* folder = std::getenv("INSIDELINE_SAMPLES");
  const std::string target = folder == nullptr ? "" : std::string(folder) + "/";
  int number = 0;
  for (const reports::Report& report : {sample_report(), report_without_chords()}) {
    const std::string text = reports::json_report(report);
    REQUIRE(Json::accept(text));
    if (!target.empty()) REQUIRE(std::ofstream(target + "sample" + std::to_string(++number) + ".json") << text);
  }
}

}  // namespace insideline::tests
