#include "reports/comparison/interval_plot.hpp"

#include "reports/comparison/sentences.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

namespace insideline::reports {
namespace {

constexpr double plot_row_height = 36.0;  // a name above its bar
constexpr double name_baseline = 14.0;
constexpr double bar_middle = 24.0;
constexpr double points = 100.0;

struct Row {
  const FigureRow* figure = nullptr;
  FigureDifference difference;
};

bool is_clear(const FigureDifference& difference) {
  return difference.verdict == Verdict::more || difference.verdict == Verdict::less;
}

std::vector<Row> rows_of(const ComparisonReport& report, std::size_t other) {
  std::vector<Row> rows;
  for (std::size_t i = 0; i < figure_rows().size(); ++i) {
    const FigureRow& figure = figure_rows()[i];
    const bool in_points = is_share(figure.unit) || figure.unit == FigureUnit::points;
    const FigureDifference& difference = report.comparison.solos[other].differences[i];
    if (figure.rank == FigureRank::main && in_points && difference.interval) rows.push_back({&figure, difference});
  }
  return rows;
}

/// The end of the axis to either side: the next ten points beyond all bars.
double reach_of(const std::vector<Row>& rows) {
  double reach = 10.0 / points;
  for (const Row& row : rows)
    reach = std::max({reach, std::abs(row.difference.interval->low), std::abs(row.difference.interval->high)});
  return std::ceil(reach * 10.0 - 1e-9) / 10.0;
}

std::string across(double difference, double reach) { return fmt::format("{:.2f}%", (difference / reach + 1) * 50); }

Markup row_drawing(const Row& row, double top, double reach) {
  const Interval95& interval = *row.difference.interval;
  const bool clear = is_clear(row.difference);
  const std::string said = fmt::format(
      "{}: {} ({} to {}){}", row.figure->name, difference_text(*row.figure, *row.difference.difference),
      difference_text(*row.figure, interval.low), difference_text(*row.figure, interval.high), clear ? " clear" : "");
  const double thickness = clear ? 8.0 : 3.0;
  const std::string width = fmt::format("{:.2f}%", (interval.high - interval.low) / reach * 50);
  return element("text", {{"x", "0"}, {"y", drawn(top + name_baseline)}}, said) +
         shape("rect", {{"x", across(interval.low, reach)},
                        {"y", drawn(top + bar_middle - thickness / 2)},
                        {"width", width},
                        {"height", drawn(thickness)},
                        {"class", clear ? "series-1" : "series-5"}}) +
         shape("circle", {{"cx", across(*row.difference.difference, reach)},
                          {"cy", drawn(top + bar_middle)},
                          {"r", "5"},
                          {"class", clear ? "series-6" : "bin series-6"}});
}

Markup axis(double top, double bottom, double reach) {
  Markup drawing;
  for (const double at : {-reach, -reach / 2, 0.0, reach / 2, reach}) {
    const std::string x = across(at, reach);
    const bool middle = std::abs(at) < 1e-9;
    drawing += shape(
        "line", {{"x1", x}, {"x2", x}, {"y1", drawn(top)}, {"y2", drawn(bottom)}, {"class", middle ? "axis" : "grid"}});
    const char* anchor = middle ? "middle" : at < -reach * 0.9 ? "start" : at > reach * 0.9 ? "end" : "middle";
    drawing += element("text", {{"x", x}, {"y", drawn(bottom + 15)}, {"text-anchor", anchor}, {"class", "small"}},
                       middle ? std::string("0") : fmt::format("{:+.0f}", at * points));
  }
  return drawing;
}

}  // namespace

Markup interval_plot(const ComparisonReport& report, std::size_t other) {
  const std::vector<Row> rows = rows_of(report, other);
  if (rows.empty()) return {};
  const double reach = reach_of(rows);
  const double height = plot_row_height * static_cast<double>(rows.size()) + 6;
  Markup drawing = axis(0, height, reach);
  double top = 0.0;
  for (const Row& row : rows) {
    drawing += row_drawing(row, top, reach);
    top += plot_row_height;
  }
  const auto clear = std::ranges::count_if(rows, [](const Row& row) { return is_clear(row.difference); });
  const std::string heading = fmt::format("{} against {}", report.solos[other].name, report.solos.front().name);
  const std::string says = fmt::format(
      "In points of percent, right of the middle where {} has more. The bar is as long as the difference may be; thick "
      "where it is clear, which {} of {} are.",
      report.solos[other].name, clear, rows.size());
  return element("figure", element("figcaption", element("h3", heading) + element("p", says)) +
                               element("svg",
                                       {{"class", "plot"},
                                        {"role", "img"},
                                        {"aria-label", heading + ". " + says},
                                        {"height", drawn(height + 20)}},
                                       drawing));
}

}  // namespace insideline::reports
