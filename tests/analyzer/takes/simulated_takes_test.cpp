#include "analyzer/takes/another_sheet.hpp"
#include "analyzer/takes/take_verdict.hpp"
#include "tests/support/analysed.hpp"
#include "tests/support/drilled.hpp"
#include "tests/support/faulty_take.hpp"
#include "tests/support/folders.hpp"

#include <cmath>
#include <fstream>
#include <set>
#include <sstream>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Assessment;
using insideline::Broken;
using insideline::Readiness;
using insideline::Solo;
using insideline::TakeBounds;
using insideline::TempoCourse;
using insideline::tests::AnalysedLine;

namespace {

AnalysedLine practice_sheet() {
  insideline::DrillSettings settings;
  settings.kind = insideline::DrillKind::arpeggios;
  settings.way = insideline::Way::down;
  settings.choruses = 2;
  const auto drill = insideline::tests::drilled(
      insideline::tests::chart(
          "Dm7 | G7 | Cmaj7 | A7 | Dm7 G7 | Em7 A7 | Fmaj7 | Bb7 | Em7 | A7 | Dm7 | Fm6 | C6 Am7 | "
          "Dm7 G7 | C6 | Em7 A7"),
      settings);
  return insideline::tests::analysed(drill.solo, drill.harmony);
}

std::string notes_of(const Assessment& found) {
  std::string text = std::to_string(found.all.right.count) + "/" + std::to_string(found.all.right.of);
  return found.added > 0 ? text + " +" + std::to_string(found.added) : text;
}

std::string bars_of(const Assessment& found) {
  std::string text = std::to_string(found.coverage.bars.count) + "/" + std::to_string(found.coverage.bars.of);
  for (const auto& run : found.coverage.silent)
    text += " -" + run.first + (run.last != run.first ? ".." + run.last : "");
  return text;
}

std::string breaks_of(const Assessment& found) {
  std::string text;
  for (const auto& interruption : found.interruptions) {
    if (!text.empty()) text += ", ";
    switch (interruption.how) {
      case Broken::began_again: text += interruption.bar + " again from " + interruption.on_in; break;
      case Broken::left_out: text += interruption.bar + " on to " + interruption.on_in; break;
      case Broken::stopped: text += "late into " + interruption.on_in; break;
      case Broken::came_early: text += "early into " + interruption.on_in; break;
    }
  }
  return text.empty() ? "-" : text;
}

std::string hesitations_of(const Assessment& found) {
  std::string text;
  for (const std::string& bar : found.hesitations) text += " (hesitates in " + bar + ")";
  return text;
}

std::string tempo_of(const TempoCourse& tempo) {
  const TakeBounds bounds;
  const double drift = tempo.drift_percent;
  std::string text = drift >= bounds.drift_percent ? "rushes" : drift <= -bounds.drift_percent ? "drags" : "holds";
  if (text == "holds" && std::abs(tempo.furthest_percent) > bounds.tempo_band_percent) text = "wavers";
  for (const auto& jump : tempo.jumps) text += ", jumps in " + jump.bar;
  return text;
}

std::string even_of(double spread_percent) {
  const TakeBounds bounds;
  if (spread_percent < bounds.even_percent) return "even";
  return spread_percent <= bounds.uneven_percent ? "fairly" : "uneven";
}

std::string word_for(Readiness readiness) {
  switch (readiness) {
    case Readiness::ready: return "ready";
    case Readiness::unsettled: return "not settled";
    case Readiness::not_ready: return "not ready";
  }
  return {};
}

/// What is said of the take, in the columns of the table.
std::string said_of(const AnalysedLine& sheet, const std::string& faults) {
  const Solo take = insideline::tests::faulty_take(sheet.solo, faults);
  const Assessment found = insideline::assess_take(sheet.solo, sheet.analysis, take);
  if (const auto another = insideline::looks_like_another_sheet(sheet.solo, take, found))
    return "-\t-\t-\t-\t-\t" + (another->semitones ? "up " + std::to_string(*another->semitones) : "another sheet");
  return notes_of(found) + "\t" + bars_of(found) + "\t" + breaks_of(found) + hesitations_of(found) + "\t" +
         tempo_of(found.tempo.value()) + "\t" + even_of(found.evenness.value().spread_percent) + "\t" +
         word_for(verdict_of(found, 8).readiness);
}

struct Row {
  std::string faults;
  std::string expected;
};

std::vector<Row> rows_of_the_table() {
  std::ifstream file(INSIDELINE_TESTS "/analyzer/takes/simulated_takes.tsv");
  std::vector<Row> rows;
  bool head = true;
  for (std::string line; std::getline(file, line);) {
    if (line.starts_with('#')) continue;
    const auto tab = line.find('\t');
    if (!head) rows.push_back({line.substr(0, tab), line.substr(tab + 1)});
    head = false;
  }
  return rows;
}

}  // namespace

TEST_CASE("of takes with planted mistakes, all that is said is what was planted") {
  const AnalysedLine sheet = practice_sheet();
  const std::vector<Row> rows = rows_of_the_table();
  std::set<std::string> kinds;
  for (const Row& row : rows) {
    CAPTURE(row.faults);
    CHECK(said_of(sheet, row.faults) == row.expected);
    kinds.insert(row.faults);
  }
  CHECK(kinds.size() == rows.size());
  CHECK(rows.size() >= 40);
}
