#include "cli/collection_report.hpp"

#include "analyzer/measures/figure_table.hpp"

#include <fmt/format.h>

namespace insideline::cli {
namespace {

constexpr int most_frequent = 12;

std::vector<reports::SurveyedSolo> listed(io::Collection& collection) {
  std::vector<reports::SurveyedSolo> solos;
  for (io::ListedSolo& solo : collection.solos())
    solos.push_back({.path = std::move(solo.place.path),
                     .folder = std::move(solo.place.folder),
                     .player = std::move(solo.place.player),
                     .title = std::move(solo.title),
                     .bars = solo.bars,
                     .notes = solo.notes});
  return solos;
}

std::vector<reports::Frequency> frequencies(const std::vector<io::NamedCount>& counts) {
  std::vector<reports::Frequency> all;
  for (const io::NamedCount& one : counts) all.push_back({one.name, one.count, one.solos});
  return all;
}

}  // namespace

reports::CollectionReport collection_report(io::Collection& collection, const std::string& name, GroupBy group_by,
                                            Detail detail) {
  const io::Totals totals = collection.totals();
  reports::CollectionReport report;
  report.name = name;
  report.grouped_by = group_by == GroupBy::player ? "player" : "folder";
  report.size = totals.solos;
  report.groups = group_by == GroupBy::player ? totals.players : totals.folders;
  report.bars = totals.bars;
  report.notes = totals.notes;
  std::vector<std::string> groups;
  if (detail != Detail::totals) report.solos = listed(collection);
  for (const reports::SurveyedSolo& solo : report.solos)
    groups.push_back(group_by == GroupBy::player ? solo.player : solo.folder);
  for (std::size_t row = 0; row < figure_rows().size(); ++row) {
    if (detail == Detail::totals && figure_rows()[row].rank != FigureRank::main) continue;
    const std::vector<SoloValue> column = collection.values(figure_rows()[row].key);
    report.figures.push_back(figure_overview(row, column, groups));
    if (detail != Detail::solos_with_values) continue;
    report.values.push_back(column);
  }
  report.cells = frequencies(collection.frequent_cells(most_frequent));
  report.arpeggios = frequencies(collection.frequent_arpeggios(most_frequent));
  return report;
}

std::string collection_csv(io::Collection& collection) {
  const std::vector<reports::SurveyedSolo> solos = listed(collection);
  std::vector<std::vector<std::string>> columns;
  for (const FigureRow& row : figure_rows()) {
    std::vector<std::string>& column = columns.emplace_back(solos.size());
    for (const SoloValue& value : collection.values(row.key)) column[value.solo] = fmt::format("{:.6g}", value.value);
  }
  return reports::survey_csv(solos, columns);
}

std::vector<reports::FigureStanding> standings(io::Collection& collection, const std::vector<FigureEntry>& figures) {
  std::vector<reports::FigureStanding> all;
  for (std::size_t row = 0; row < figure_rows().size(); ++row) {
    if (figure_rows()[row].rank != FigureRank::main || !figures[row].value) continue;
    std::vector<double> values;
    for (const SoloValue& value : collection.values(figure_rows()[row].key)) values.push_back(value.value);
    if (values.empty()) continue;
    all.push_back({.row = row,
                   .value = *figures[row].value,
                   .below = standing(values, *figures[row].value),
                   .median = distribution_of(values).median,
                   .solos = values.size()});
  }
  return all;
}

}  // namespace insideline::cli
