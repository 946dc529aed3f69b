#include "cli/collection_report.hpp"

#include "analyzer/measures/figure_table.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstddef>
#include <string_view>
#include <utility>

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

/// Calls `take(row, values)` for the figures that `is_wanted`, in their order. As many are read in one pass over the
/// collection as fit into some 64 MB.
template <typename Wanted, typename Take>
void for_each_figure(io::Collection& collection, int solos, const Wanted& is_wanted, const Take& take) {
  constexpr std::size_t most_values = 4'000'000;
  const std::size_t at_a_time = std::max<std::size_t>(1, most_values / static_cast<std::size_t>(std::max(1, solos)));
  std::vector<std::size_t> wanted;
  for (std::size_t row = 0; row < figure_rows().size(); ++row)
    if (is_wanted(figure_rows()[row])) wanted.push_back(row);
  for (std::size_t first = 0; first < wanted.size(); first += at_a_time) {
    std::vector<std::string_view> keys;
    for (std::size_t i = first; i < std::min(first + at_a_time, wanted.size()); ++i)
      keys.emplace_back(figure_rows()[wanted[i]].key);
    std::vector<std::vector<SoloValue>> columns = collection.values(keys);
    for (std::size_t i = 0; i < columns.size(); ++i) take(wanted[first + i], std::move(columns[i]));
  }
}

bool is_main(const FigureRow& figure) { return figure.rank == FigureRank::main; }
bool is_any(const FigureRow&) { return true; }

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
  for_each_figure(collection, totals.solos, detail == Detail::totals ? is_main : is_any,
                  [&](std::size_t row, std::vector<SoloValue> values) {
                    report.figures.push_back(figure_overview(row, values, groups));
                    if (detail == Detail::solos_with_values) report.values.push_back(std::move(values));
                  });
  report.cells = frequencies(collection.frequent_cells(most_frequent));
  report.arpeggios = frequencies(collection.frequent_arpeggios(most_frequent));
  return report;
}

std::string collection_csv(io::Collection& collection) {
  const std::vector<reports::SurveyedSolo> solos = listed(collection);
  std::vector<std::vector<std::string>> columns;
  for_each_figure(collection, static_cast<int>(solos.size()), is_any,
                  [&](std::size_t, const std::vector<SoloValue>& values) {
                    std::vector<std::string>& column = columns.emplace_back(solos.size());
                    for (const SoloValue& value : values) column[value.solo] = fmt::format("{:.6g}", value.value);
                  });
  return reports::survey_csv(solos, columns);
}

std::vector<reports::FigureStanding> standings(io::Collection& collection, const std::vector<FigureEntry>& figures) {
  std::vector<reports::FigureStanding> all;
  for_each_figure(collection, collection.totals().solos, is_main,
                  [&](std::size_t row, const std::vector<SoloValue>& column) {
                    if (!figures[row].value || column.empty()) return;
                    std::vector<double> values;
                    for (const SoloValue& value : column) values.push_back(value.value);
                    all.push_back({.row = row,
                                   .value = *figures[row].value,
                                   .below = standing(values, *figures[row].value),
                                   .median = distribution_of(values).median,
                                   .solos = values.size()});
                  });
  return all;
}

}  // namespace insideline::cli
