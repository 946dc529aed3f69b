// Practice sheets over the changes of every demo piece: the analysis of the sheet finds what the sheet says.
#include "analyzer/alignment.hpp"
#include "analyzer/analysis.hpp"
#include "analyzer/collection/distribution.hpp"
#include "analyzer/collection/solo_rows.hpp"
#include "analyzer/drills/aim_check.hpp"
#include "analyzer/drills/drill.hpp"
#include "analyzer/drills/usual_shares.hpp"
#include "io/changes/changes_file.hpp"
#include "io/read_solo.hpp"

#include <filesystem>
#include <map>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Changes;
using insideline::DrillKind;
using insideline::DrillRhythm;
using insideline::DrillSettings;

namespace {

std::map<std::string, Changes> demo_charts() {
  std::map<std::string, Changes> charts;
  for (const auto& entry : std::filesystem::directory_iterator(INSIDELINE_CORPUS)) {
    if (entry.path().extension() == ".changes")
      charts[entry.path().filename().string()] = insideline::io::read_changes(entry.path());
    if (entry.path().extension() != ".musicxml") continue;
    const auto read = insideline::io::read_solo(entry.path());
    if (read.changes) charts[entry.path().filename().string()] = *read.changes;
  }
  return charts;
}

}  // namespace

TEST_CASE("over the changes of every demo piece, each line with an aim is wholly what it says") {
  const auto [kind, voices] = GENERATE(table<DrillKind, int>({{DrillKind::nearest_tones, 1},
                                                              {DrillKind::common_tones, 1},
                                                              {DrillKind::guide_tones, 1},
                                                              {DrillKind::guide_tones, 2},
                                                              {DrillKind::enclosures, 1},
                                                              {DrillKind::descents, 1}}));
  const auto rhythm = GENERATE(DrillRhythm::quarters, DrillRhythm::eighths, DrillRhythm::triplets,
                               DrillRhythm::off_beat, DrillRhythm::three_over_four);
  const std::map<std::string, Changes> charts = demo_charts();
  CHECK(charts.size() >= 8);
  for (const auto& [name, changes] : charts) {
    INFO(name);
    DrillSettings settings;
    settings.kind = kind;
    settings.voices = voices;
    settings.rhythm = rhythm;
    settings.range = {52, 83};
    const auto drill = drill_over(changes, settings);
    REQUIRE(drill);
    const auto aim = check_aim(*drill, settings);
    REQUIRE(aim);
    CHECK(aim->kept.of >= 5);
    CHECK(aim->kept.count == aim->kept.of);
  }
}

TEST_CASE("the shares that the program calls usual are the medians of the demo pieces") {
  std::map<std::string, std::vector<double>> values;
  for (const auto& entry : std::filesystem::directory_iterator(INSIDELINE_CORPUS)) {
    if (entry.path().extension() != ".musicxml") continue;
    const auto read = insideline::io::read_solo(entry.path());
    auto chart = entry.path();
    chart.replace_extension(".changes");
    const Changes changes = std::filesystem::exists(chart) ? insideline::io::read_changes(chart) : read.changes.value();
    const auto analysis = insideline::analyze(read.solo, insideline::lay_out(changes, read.solo));
    for (const auto& figure : insideline::figure_entries(read.solo, analysis))
      if (figure.value) values[figure.key].push_back(*figure.value);
  }
  for (const insideline::UsualShare& usual : insideline::stated_shares()) {
    INFO(usual.figure);
    REQUIRE(values[usual.figure].size() == 10);
    CHECK(insideline::distribution_of(values[usual.figure]).median == Approx(usual.share).margin(0.0051));
  }
}
