#include "reports/html/page.hpp"
#include "analyzer/measures/figure_table.hpp"
#include "reports/html/plots.hpp"
#include "reports/survey/survey_report.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::reports {
namespace {

constexpr std::size_t most_apart_on_page = 20;

Markup sentences(const CollectionReport& report) {
  Markup words;
  for (const std::string& sentence : collection_sentences(report)) words += element("p", sentence);
  return words;
}

Markup spread_plots(const CollectionReport& report) {
  Markup plots;
  for (std::size_t i = 0; i < std::min(report.figures.size(), report.values.size()); ++i) {
    const FigureOverview& figure = report.figures[i];
    const FigureRow& row = figure_rows()[figure.row];
    if (!figure.spread || row.rank != FigureRank::main || figure.spread->lowest < 0.0) continue;
    const Axis axis = is_share(row.unit)
                          ? Axis{.name = row.name, .low = 0.0, .high = 1.0, .step = 0.1, .numbers = Numbers::percent}
                          : axis_from_zero(row.name, std::max(figure.spread->highest, 1.0));
    plots += histogram({.heading = row.name, .says = row.meaning, .things = row.name}, axis, report.values[i],
                       {.value = figure.spread->median, .name = "median"});
  }
  return plots;
}

Markup spread_table(const CollectionReport& report) {
  Table all{.caption = "Every figure over the collection",
            .head = {"figure", "solos", "lowest", "10 %", "25 %", "median", "75 %", "90 %", "highest"},
            .rows = {}};
  for (const FigureOverview& figure : report.figures) {
    if (!figure.spread) continue;
    const Distribution& spread = *figure.spread;
    std::vector<std::string> cells{figure_rows()[figure.row].name, std::to_string(spread.count)};
    for (const double value : {spread.lowest, spread.tenth, spread.lower_quarter, spread.median, spread.upper_quarter,
                               spread.nine_tenths, spread.highest})
      cells.push_back(value_text(figure.row, value));
    all.rows.push_back(std::move(cells));
  }
  return table(all);
}

Markup groups_tables(const CollectionReport& report) {
  Markup tables;
  for (const FigureOverview& figure : report.figures) {
    const FigureRow& row = figure_rows()[figure.row];
    if (figure.groups.size() < 2 || row.rank != FigureRank::main) continue;
    Table groups{.caption = fmt::format("{} by {}", row.name, report.grouped_by),
                 .head = {report.grouped_by, "solos", "lowest", "50 %", "highest"},
                 .rows = {}};
    for (const GroupSpread& group : figure.groups)
      groups.rows.push_back({group.name, std::to_string(group.spread.count),
                             value_text(figure.row, group.spread.lowest), value_text(figure.row, group.spread.median),
                             value_text(figure.row, group.spread.highest)});
    tables += element("h3", row.name) + table(groups);
  }
  return tables;
}

Markup apart_table(const CollectionReport& report) {
  Table apart{.caption = "Solos that stand apart", .head = {"solo", "figure", "value"}, .rows = {}, .numbers_from = 2};
  for (const FigureOverview& figure : report.figures) {
    if (figure_rows()[figure.row].rank != FigureRank::main) continue;
    for (std::size_t i = 0; i < std::min(figure.apart.size(), most_apart_on_page); ++i)
      apart.rows.push_back({report.solos[figure.apart[i].solo].path, figure_rows()[figure.row].name,
                            value_text(figure.row, figure.apart[i].value)});
  }
  if (apart.rows.empty()) return element("p", "No solo stands apart.");
  return element(
             "p",
             "Further from the middle half of the solos than one and a half times its width (Tukey's rule): a style "
             "of its own, or a mistake in the file.") +
         table(apart);
}

Markup frequency_plot(const std::string& heading, const std::vector<Frequency>& all) {
  std::vector<NamedValue> bars;
  for (const Frequency& one : all)
    bars.push_back({.name = one.name,
                    .value = static_cast<double>(one.count),
                    .said = fmt::format("{} in {}", one.count, counted(one.solos, "solo"))});
  if (bars.empty()) return {};
  return horizontal_bars({.heading = heading, .says = "The most frequent first.", .things = "degrees"}, "times", bars);
}

}  // namespace

std::string collection_page(const CollectionReport& report) {
  Page page;
  page.title = report.name.empty() ? "A collection of solos" : report.name;
  page.main = section("words", "In words", sentences(report));
  if (report.size > 0) {
    page.main += section("spread", "How the solos spread", spread_plots(report));
    page.main += section("figures", "Every figure", spread_table(report));
    if (report.figures.front().groups.size() > 1)
      page.main += section("groups", "By " + report.grouped_by, groups_tables(report));
    page.main += section("apart", "Solos that stand apart", apart_table(report));
    page.main += section("frequent", "Cells and arpeggios",
                         frequency_plot("Cells", report.cells) + frequency_plot("Arpeggios", report.arpeggios));
  }
  return whole_page(page);
}

}  // namespace insideline::reports
