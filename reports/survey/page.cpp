#include "reports/html/page.hpp"
#include "analyzer/measures/figure_table.hpp"
#include "reports/html/plots.hpp"
#include "reports/survey/courses.hpp"
#include "reports/survey/survey_report.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <map>
#include <string_view>

namespace insideline::reports {
namespace {

constexpr std::size_t most_apart_on_page = 20;  // a figure
constexpr std::size_t most_apart_open = 12;     // rows

Markup sentences(const CollectionReport& report) {
  Markup words;
  for (const std::string& sentence : collection_sentences(report)) words += element("p", sentence);
  return words;
}

/// A part of the page that opens at a click.
Markup folded(const std::string& summary, const Markup& content) {
  return element("details", {{"class", "fold"}}, element("summary", summary) + content);
}

constexpr FigureGroup all_groups[] = {FigureGroup::chord_tones, FigureGroup::degrees,     FigureGroup::other_notes,
                                      FigureGroup::arpeggios,   FigureGroup::connections, FigureGroup::guide_tones,
                                      FigureGroup::line};

std::string across_strip(double share) { return fmt::format("{:.2f}%", 100.0 * std::clamp(share, 0.0, 1.0)); }

/// A figure as a strip from 0 to 100 %: a thin line over 8 in 10 solos, a bar over the middle half, a mark at the
/// median.
Markup strip(const FigureOverview& figure, double y) {
  const Distribution& spread = *figure.spread;
  constexpr double middle = 26.0;
  const auto stretch = [&](double from, double to, double height, std::string_view style) {
    return shape("rect", {{"x", across_strip(from)},
                          {"y", drawn(y + middle - height / 2)},
                          {"width", across_strip(to - from)},
                          {"height", drawn(height)},
                          {"class", std::string(style)}});
  };
  const std::string median = across_strip(spread.median);
  return element("text", {{"x", "0"}, {"y", drawn(y + 14)}}, figure_rows()[figure.row].name) +
         element("text", {{"x", "100%"}, {"y", drawn(y + 14)}, {"text-anchor", "end"}, {"class", "small"}},
                 value_text(figure.row, spread.median)) +
         stretch(0.0, 1.0, 10.0, "track") + stretch(spread.tenth, spread.nine_tenths, 3.0, "series-5") +
         stretch(spread.lower_quarter, spread.upper_quarter, 10.0, "series-2") +
         shape("line", {{"x1", median},
                        {"x2", median},
                        {"y1", drawn(y + middle - 8)},
                        {"y2", drawn(y + middle + 8)},
                        {"class", "mark"}});
}

bool has_strip(const FigureOverview& figure) {
  const FigureRow& row = figure_rows()[figure.row];
  return figure.spread && row.rank == FigureRank::main && is_share(row.unit);
}

/// All main shares at a glance, in as many columns as the screen has room for.
Markup strips(const CollectionReport& report) {
  constexpr double row_height_of_strip = 40.0;
  Markup columns;
  for (const FigureGroup group : all_groups) {
    Markup rows;
    double y = 0.0;
    for (const FigureOverview& figure : report.figures) {
      if (figure_rows()[figure.row].group != group || !has_strip(figure)) continue;
      rows += strip(figure, y);
      y += row_height_of_strip;
    }
    if (rows.empty()) continue;
    const std::string says =
        std::string(heading(group)) + ": how the solos spread; every number is in the table below.";
    columns += element(
        "figure",
        element("figcaption", element("h3", heading(group))) +
            element("svg", {{"class", "plot"}, {"role", "img"}, {"aria-label", says}, {"height", drawn(y)}}, rows));
  }
  return element(
             "p",
             "Each strip goes from 0 to 100 %. The bar holds the middle half of the solos, the thin line 8 in 10 of "
             "them; the mark is the median, which stands in figures at the right.") +
         element("div", {{"class", "plots"}}, columns);
}

Markup spread_plots(const CollectionReport& report) {
  Markup groups;
  for (const FigureGroup group : all_groups) {
    Markup plots;
    int count = 0;
    for (std::size_t i = 0; i < std::min(report.figures.size(), report.values.size()); ++i) {
      const FigureOverview& figure = report.figures[i];
      const FigureRow& row = figure_rows()[figure.row];
      if (!figure.spread || row.group != group || row.rank != FigureRank::main || figure.spread->lowest < 0.0) continue;
      const Axis axis = is_share(row.unit)
                            ? Axis{.name = row.name, .low = 0.0, .high = 1.0, .step = 0.2, .numbers = Numbers::percent}
                            : axis_from_zero(row.name, std::max(figure.spread->highest, 1.0));
      std::vector<double> values;
      for (const SoloValue& value : report.values[i]) values.push_back(value.value);
      plots += histogram({.heading = row.name, .says = row.meaning, .things = row.name}, axis, values,
                         {.value = figure.spread->median, .name = "median"});
      ++count;
    }
    if (count > 0)
      groups += folded(fmt::format("{}: how many solos have how much ({})", heading(group), counted(count, "plot")),
                       element("div", {{"class", "plots"}}, plots));
  }
  return groups;
}

constexpr std::string_view course_keys[] = {"chord_tones", "arpeggio_notes", "nearest_taken"};
constexpr std::size_t players_a_plot = 6;

/// One line a player over time, six players a plot; all after the first six are folded.
Markup courses(const CollectionReport& report, const CourseTimes& times) {
  double last = 1.0;
  for (const auto& at : times.at) last = std::max(last, at.value_or(0.0));
  std::vector<Markup> pages;
  std::size_t players = 0;
  for (std::size_t i = 0; i < std::min(report.figures.size(), report.values.size()); ++i) {
    const FigureRow& row = figure_rows()[report.figures[i].row];
    if (std::ranges::find(course_keys, std::string_view(row.key)) == std::end(course_keys)) continue;
    const std::vector<PlottedLine> lines = player_courses(report, times, i);
    players = std::max(players, lines.size());
    for (std::size_t from = 0; from < lines.size(); from += players_a_plot) {
      if (pages.size() <= from / players_a_plot) pages.emplace_back();
      pages[from / players_a_plot] +=
          line_plot({.heading = fmt::format("{} over time{}", row.name,
                                            from == 0 ? "" : fmt::format(", from player {}", from + 1)),
                     .says = "One line a player, a corner a solo.",
                     .things = "player"},
                    axis_from_zero(times.axis, last),
                    {.name = row.name, .low = 0.0, .high = 1.0, .step = 0.25, .numbers = Numbers::percent},
                    std::span(lines).subspan(from, std::min(players_a_plot, lines.size() - from)));
    }
  }
  Markup view;
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const Markup plots = element("div", {{"class", "plots"}}, pages[i]);
    const std::size_t first = i * players_a_plot + 1;
    view += i == 0
                ? plots
                : folded(fmt::format("Players {} to {}", first, std::min(first + players_a_plot - 1, players)), plots);
  }
  return view;
}

/// Every solo with a page of its own, by player.
Markup solo_links(const CollectionReport& report) {
  constexpr std::size_t open_up_to = 30;  // solos
  std::map<std::string, Markup> players;
  std::map<std::string, int> counts;
  std::size_t all = 0;
  for (const SurveyedSolo& solo : report.solos) {
    if (solo.page.empty()) continue;
    const std::string name = solo.path.substr(solo.path.rfind('/') + 1);
    players[solo.player] +=
        element("li", element("a", {{"href", solo.page}}, name) +
                          text(fmt::format("{}{}, {}", solo.title.empty() ? " " : " " + solo.title + ", ",
                                           counted(solo.bars, "bar"), counted(solo.notes, "note"))));
    ++counts[solo.player];
    ++all;
  }
  Markup view;
  for (const auto& [player, items] : players) {
    const Markup list = element("ul", {{"class", "solos"}}, items);
    view += all <= open_up_to ? element("h3", player) + list
                              : folded(fmt::format("{}: {}", player, counted(counts[player], "solo")), list);
  }
  return view;
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
  const std::string says = counted(static_cast<int>(all.rows.size()), "figure");
  return folded("All " + says + " as a table", table(all));
}

Markup groups_tables(const CollectionReport& report) {
  Markup folds;
  for (const FigureGroup group : all_groups) {
    Markup tables;
    for (const FigureOverview& figure : report.figures) {
      const FigureRow& row = figure_rows()[figure.row];
      if (row.group != group || figure.groups.size() < 2 || row.rank != FigureRank::main) continue;
      Table its{.caption = fmt::format("{} by {}", row.name, report.grouped_by),
                .head = {report.grouped_by, "solos", "lowest", "50 %", "highest"},
                .rows = {}};
      for (const GroupSpread& spread : figure.groups)
        its.rows.push_back({spread.name, std::to_string(spread.spread.count),
                            value_text(figure.row, spread.spread.lowest), value_text(figure.row, spread.spread.median),
                            value_text(figure.row, spread.spread.highest)});
      tables += element("div", element("h3", row.name) + table(its));
    }
    if (!tables.empty()) folds += folded(heading(group), element("div", {{"class", "group-tables"}}, tables));
  }
  return folds;
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
         (apart.rows.size() > most_apart_open
              ? folded(counted(static_cast<int>(apart.rows.size()), "row"), table(apart))
              : table(apart));
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
    page.styles = {survey_style};
    const Markup links = solo_links(report);
    if (!links.empty()) page.main += section("solos", "The solos", links);
    if (const auto times = course_times(report))
      page.main += section("courses", "Player by player over time", courses(report, *times));
    page.main += section("spread", "How the solos spread", strips(report) + spread_plots(report));
    page.main += section("figures", "Every figure", spread_table(report));
    if (report.figures.front().groups.size() > 1)
      page.main += section("groups", "By " + report.grouped_by, groups_tables(report));
    page.main += section("apart", "Solos that stand apart", apart_table(report));
    page.main +=
        section("frequent", "Cells and arpeggios",
                element("div", {{"class", "plots two"}},
                        frequency_plot("Cells", report.cells) + frequency_plot("Arpeggios", report.arpeggios)));
  }
  return whole_page(page);
}

}  // namespace insideline::reports
