#include "reports/html/page.hpp"
#include "reports/comparison/bar_cards.hpp"
#include "reports/comparison/comparison_report.hpp"
#include "reports/comparison/interval_plot.hpp"
#include "reports/comparison/note_lines.hpp"
#include "reports/comparison/sentences.hpp"
#include "reports/html/plots.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::reports {
namespace {

constexpr std::size_t most_series = 6;  // that a plot can tell apart
constexpr std::size_t bars_together = 4;

Markup what_is_compared(const ComparisonReport& report) {
  Markup lines;
  for (std::size_t i = 0; i < report.solos.size(); ++i) {
    const ComparedSolo& solo = report.solos[i];
    const Source& source = report.read[report.read.size() == 1 ? 0 : i].source;
    lines += element(
        "p", fmt::format("{}: {}, {}, {} ({}; changes: {})", solo.name, counted(solo.bars, "bar"),
                         counted(solo.notes, "note"), counted(solo.changes, "change of chord", "changes of chord"),
                         source.solo_file, source.changes_file));
  }
  return lines;
}

Markup in_words(const ComparisonReport& report) {
  Markup words;
  for (std::size_t other = 1; other < report.solos.size(); ++other) {
    const Findings findings = findings_about(report, other);
    words += element("h3", fmt::format("{} against {}", report.solos[other].name, report.solos.front().name));
    Markup items;
    for (const std::string& sentence : findings.clear) items += element("li", sentence);
    if (findings.clear.empty()) items += element("li", "None of the main figures differs clearly.");
    if (!findings.clear_details.empty())
      items += element("li", fmt::format("In detail: {}.", fmt::join(findings.clear_details, "; ")));
    words += element("ul", items);
    if (!findings.not_clear.empty())
      words += element("p", "No clear difference in: " + listed(findings.not_clear) + ".");
    if (!findings.in_neither.empty()) words += element("p", "None in either: " + listed(findings.in_neither) + ".");
    if (!findings.too_few.empty()) words += element("p", "Too little to compare: " + listed(findings.too_few) + ".");
  }
  words += element("h3", "How sure is that?") + element("p", many_looks(report)) + element("p", how_sure(report));
  for (const std::string& caution : report.comparison.cautions) words += element("p", caution + ".");
  return words;
}

/// The shares of a group that every shown solo has, side by side.
Markup group_plot(const ComparisonReport& report, FigureGroup group) {
  const std::size_t shown = std::min(report.solos.size(), most_series);
  std::vector<Series> series(shown);
  for (std::size_t solo = 0; solo < shown; ++solo) series[solo].name = report.solos[solo].name;
  for (std::size_t row = 0; row < figure_rows().size(); ++row) {
    const FigureRow& figure = figure_rows()[row];
    if (figure.group != group || !is_share(figure.unit)) continue;
    const auto has_it = [&](const SoloComparison& side) { return side.values[row].value.has_value(); };
    const auto first_shown = std::span(report.comparison.solos).first(shown);
    if (!std::ranges::all_of(first_shown, has_it)) continue;
    for (std::size_t solo = 0; solo < shown; ++solo) {
      const FigureValue& value = report.comparison.solos[solo].values[row];
      series[solo].values.push_back(
          {.name = figure.name, .value = *value.value, .said = figure_text(figure, value) + ", " + counts_text(value)});
    }
  }
  if (series.front().values.empty()) return {};
  return grouped_bars({.heading = heading(group), .says = "Shares, side by side.", .things = "figure"}, series, 1.0);
}

/// How the chord-tone share goes through each solo, over the bar and the three before it.
Markup course_plot(const ComparisonReport& report) {
  std::vector<PlottedLine> lines;
  double longest = 1.0;
  for (std::size_t solo = 0; solo < std::min(report.solos.size(), most_series); ++solo) {
    const BarSeries& bars = report.solos[solo].figures.front();  // chord tones, the first figure of all
    PlottedLine& line = lines.emplace_back(PlottedLine{.name = report.solos[solo].name, .points = {}});
    for (std::size_t bar = bars_together; bar <= bars.size(); ++bar)
      if (const auto share = quotient(std::span(bars).subspan(bar - bars_together, bars_together)))
        line.points.push_back({.x = static_cast<double>(bar), .y = *share});
    longest = std::max(longest, static_cast<double>(bars.size()));
  }
  return line_plot({.heading = "Chord tones through the solo",
                    .says = "The share of chord tones in each bar together with the three before it.",
                    .things = "solo"},
                   axis_from_zero("bar", longest),
                   {.name = "chord tones", .low = 0.0, .high = 1.0, .step = 0.25, .numbers = Numbers::percent}, lines);
}

Markup every_figure(const ComparisonReport& report) {
  Markup tables;
  for (std::size_t other = 1; other < report.solos.size(); ++other) {
    Table table{.caption = fmt::format("{} against {}: every figure with its counts, the difference and what it may be "
                                       "(95 %)",
                                       report.solos[other].name, report.solos.front().name),
                .head = {"figure", report.solos.front().name, report.solos[other].name, "difference", "95 %", "clear?"},
                .rows = {}};
    for (std::size_t row = 0; row < figure_rows().size(); ++row) {
      const FigureRow& figure = figure_rows()[row];
      const FigureValue& first = report.comparison.solos.front().values[row];
      const FigureValue& here = report.comparison.solos[other].values[row];
      const FigureDifference& difference = report.comparison.solos[other].differences[row];
      const auto said = [&](const FigureValue& value) {
        return figure_text(figure, value) + ", " + counts_text(value);
      };
      const bool clear = difference.verdict == Verdict::more || difference.verdict == Verdict::less;
      table.rows.push_back({figure.name, said(first), said(here),
                            difference.difference ? difference_text(figure, *difference.difference) : "-",
                            difference.interval
                                ? fmt::format("{} to {}", difference_text(figure, difference.interval->low),
                                              difference_text(figure, difference.interval->high))
                                : "-",
                            clear ? "clear" : ""});
    }
    tables += folded_table(table);
  }
  Markup meanings;
  for (const FigureRow& figure : figure_rows())
    meanings += element("li", element("b", figure.name) + text(std::string(": ") + figure.meaning));
  return tables + element("details", {{"class", "figures"}},
                          element("summary", "What the figures are") + element("ul", meanings));
}

}  // namespace

std::string comparison_page(const ComparisonReport& report) {
  Page page;
  page.title = comparison_title(report);
  page.under_title = what_is_compared(report);
  page.main = section("words", "In words", in_words(report));
  const std::vector<BesideFirst> beside = solos_beside_first(report);
  if (!beside.empty()) {
    page.main += section("same-bars", "The same bars side by side", bar_cards(report, beside));
    page.styles = {line_map_style, player_style, side_by_side_style};
    page.scripts = {address_script, schedule_script, sound_script, side_by_side_script};
    page.data = bar_cards_data(report);
  }
  Markup intervals;
  for (std::size_t other = 1; other < report.solos.size(); ++other) intervals += interval_plot(report, other);
  if (!intervals.empty()) page.main += section("intervals", "How far apart", intervals);
  page.main += section("lines", "The lines", note_lines(line_panels(report)) + course_plot(report));
  Markup plots;
  for (const FigureGroup group : {FigureGroup::chord_tones, FigureGroup::degrees, FigureGroup::other_notes,
                                  FigureGroup::arpeggios, FigureGroup::connections, FigureGroup::guide_tones})
    plots += group_plot(report, group);
  if (report.solos.size() > most_series)
    plots = element("p", fmt::format("The plots show the first {} of {}.", most_series, report.solos.size())) + plots;
  page.main += section("plots", "Side by side", element("div", {{"class", "plots"}}, plots));
  page.main += section("figures", "Every figure", every_figure(report));
  return whole_page(page);
}

}  // namespace insideline::reports
