// Plots of plain values: each of them a figure with its heading, an SVG that a screen reader is told in one
// sentence, and the table behind it. Widths are in percent, so that the lettering keeps its size on a
// telephone. What colour says, a pattern, a letter or a number says as well.
//
//   horizontal_bars   how often each of several things comes
//   stacked_bars      what groups of notes are made of, by role
//   histogram         how values spread, and where one marked value stands among them
//   grouped_bars      the same things for two or more solos (or choruses) side by side
//   line_plot         values along an axis, joined or in steps
#pragma once

#include "reports/html/markup.hpp"

#include <cstdint>
#include <span>
#include <string>
#include <vector>

namespace insideline::reports {

/// The words around a plot.
struct PlotWords {
  std::string heading;
  std::string says;    ///< one sentence: what there is to see; read out in place of the drawing
  std::string things;  ///< head of the table's first column: "degree"
};

struct NamedValue {
  std::string name;
  double value = 0.0;  ///< >= 0
  std::string said;    ///< the value in words: "12 of 30 (40 %)"
};
/// One bar each, in the order given; the longest is `full` where that is above 0, else the largest value.
/// `measured` heads the column of values: "notes".
Markup horizontal_bars(const PlotWords& words, const std::string& measured, std::span<const NamedValue> values,
                       double full = 0.0);

struct RoleCounts {
  std::string name;
  int chord_tones = 0;
  int tensions = 0;
  int non_chord_tones = 0;
  int outside = 0;
};
/// What the fills of stacked bars mean, as a list.
Markup role_legend();
/// Each row fills the width, cut by role; rows of no notes say so.
Markup stacked_bars(const PlotWords& words, std::span<const RoleCounts> rows);

/// How the numbers along an axis are written.
enum class Numbers : std::uint8_t { plain, percent };  ///< percent: 0.25 is "25 %"

struct Axis {
  std::string name;  ///< "share of chord tones"
  double low = 0.0;
  double high = 1.0;  ///< > low
  double step = 0.1;  ///< > 0, between two numbers on the axis
  Numbers numbers = Numbers::plain;
};

struct MarkedValue {
  double value = 0.0;
  std::string name;  ///< "this solo"
};
/// Values in bins of half an axis step; `mark` is a line across them. Values outside the axis count in its end bins.
Markup histogram(const PlotWords& words, const Axis& axis, std::span<const double> values, const MarkedValue& mark);

struct Series {
  std::string name;
  std::vector<NamedValue> values;  ///< the same names in the same order in each series
};
/// At most six series, lettered A to F.
Markup grouped_bars(const PlotWords& words, std::span<const Series> series, double full = 0.0);

struct Point {
  double x = 0.0;
  double y = 0.0;
};
struct PlottedLine {
  std::string name;
  std::vector<Point> points;  ///< by x
};
enum class Joined : std::uint8_t { straight, in_steps };
/// At most six lines, lettered A to F; each its own dashes.
Markup line_plot(const PlotWords& words, const Axis& across, const Axis& up, std::span<const PlottedLine> lines,
                 Joined joined = Joined::straight);

/// The scale that `value`s of an axis from 0 want: `high` a round number above the largest, in at most six steps.
Axis axis_from_zero(const std::string& name, double largest, Numbers numbers = Numbers::plain);

/// "0.25" or "25 %", with as many places as `step` needs.
std::string axis_number(double value, const Axis& axis);

}  // namespace insideline::reports
