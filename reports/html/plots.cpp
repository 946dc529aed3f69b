#include "reports/html/plots.hpp"

#include "reports/html/page.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

namespace insideline::reports {
namespace {

constexpr double row_height = 38.0;  // a name above its bar
constexpr double bar_height = 14.0;
constexpr double name_baseline = 14.0;
constexpr double bar_top = 19.0;
constexpr std::size_t most_series = 6;

std::string percent_of_width(double share) { return drawn(share * 100.0) + "%"; }

Markup label(double share_across, double y, std::string_view anchor, std::string_view words,
             std::string_view style = "") {
  return element("text",
                 {{"x", percent_of_width(share_across)},
                  {"y", drawn(y)},
                  {anchor.empty() ? "" : "text-anchor", std::string(anchor)},
                  {style.empty() ? "" : "class", std::string(style)}},
                 words);
}

Markup bar(double from, double width, double y, double height, std::string_view style) {
  return shape("rect", {{"x", percent_of_width(from)},
                        {"y", drawn(y)},
                        {"width", percent_of_width(width)},
                        {"height", drawn(height)},
                        {"class", std::string(style)}});
}

Markup drawing(const PlotWords& words, double height, const Markup& content) {
  return element("svg",
                 {{"class", "plot"},
                  {"role", "img"},
                  {"aria-label", words.heading + ". " + words.says},
                  {"height", drawn(height)}},
                 content);
}

Markup figure(const PlotWords& words, const Markup& legend, double height, const Markup& content, const Table& behind) {
  return element("figure", element("figcaption", element("h3", words.heading) + element("p", words.says)) + legend +
                               drawing(words, height, content) + folded_table(behind));
}

char letter(std::size_t series) { return static_cast<char>('A' + series); }

std::string series_style(std::size_t series) { return fmt::format("series-{}", std::min(series, most_series - 1) + 1); }

struct RolePart {
  const char* name;
  const char* style;
  int RoleCounts::*count;
};
constexpr std::array<RolePart, 4> role_parts = {{{"chord tones", "part-c", &RoleCounts::chord_tones},
                                                 {"tensions", "part-t", &RoleCounts::tensions},
                                                 {"non-chord tones", "part-n", &RoleCounts::non_chord_tones},
                                                 {"outside", "part-o", &RoleCounts::outside}}};

int notes_of(const RoleCounts& row) { return row.chord_tones + row.tensions + row.non_chord_tones + row.outside; }

Markup series_legend(std::span<const std::string> names, bool dashes) {
  Markup items;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const Markup sample = dashes ? shape("path", {{"d", "M0 6h30"}, {"class", "line " + series_style(i)}})
                                 : shape("rect", {{"width", "18"}, {"height", "12"}, {"class", series_style(i)}});
    items += element(
        "li", element("svg", {{"width", dashes ? "30" : "18"}, {"height", "12"}, {"aria-hidden", "true"}}, sample) +
                  text(fmt::format("{}: {}", letter(i), names[i])));
  }
  return element("ul", {{"class", "key"}}, items);
}

double largest_of(std::span<const NamedValue> values) {
  double largest = 0.0;
  for (const NamedValue& value : values) largest = std::max(largest, value.value);
  return largest;
}

/// 0..1, where `value` stands on the axis.
double along(const Axis& axis, double value) {
  return std::clamp((value - axis.low) / (axis.high - axis.low), 0.0, 1.0);
}

int places_of(double step) {
  int places = 0;
  for (double rest = step; places < 3 && std::abs(rest - std::round(rest)) > 1e-6; rest *= 10.0) ++places;
  return places;
}

std::vector<double> ticks_of(const Axis& axis) {
  std::vector<double> ticks;
  const auto count = static_cast<int>(std::floor((axis.high - axis.low) / axis.step + 1e-6));
  for (int i = 0; i <= count; ++i) ticks.push_back(axis.low + axis.step * i);
  return ticks;
}

/// The part of the width that holds a plot with numbers at its left.
constexpr double plot_left = 0.09;
constexpr double plot_right = 0.97;
double across_plot(double share) { return plot_left + share * (plot_right - plot_left); }

Markup axis_below(const Axis& axis, double y) {
  Markup marks;
  for (const double tick : ticks_of(axis)) {
    const double at = across_plot(along(axis, tick));
    marks += shape("line", {{"x1", percent_of_width(at)},
                            {"x2", percent_of_width(at)},
                            {"y1", drawn(y)},
                            {"y2", drawn(y + 4)},
                            {"class", "axis"}});
    marks += label(at, y + 17, "middle", axis_number(tick, axis), "small");
  }
  marks += label((plot_left + plot_right) / 2, y + 34, "middle", axis.name, "small");
  return marks;
}

Markup axis_left(const Axis& axis, double top, double height) {
  Markup marks;
  for (const double tick : ticks_of(axis)) {
    const double y = top + height * (1.0 - along(axis, tick));
    marks += shape("line", {{"x1", percent_of_width(plot_left)},
                            {"x2", percent_of_width(plot_right)},
                            {"y1", drawn(y)},
                            {"y2", drawn(y)},
                            {"class", "grid"}});
    marks += label(plot_left - 0.01, y + 4, "end", axis_number(tick, axis), "small");
  }
  return marks;
}

/// Where lines are drawn: a box in percent with its own scale of 1000 by 1000, whose strokes keep their width.
Markup line_box(double top, double height, const Markup& lines) {
  return element("svg",
                 {{"x", percent_of_width(plot_left)},
                  {"y", drawn(top)},
                  {"width", percent_of_width(plot_right - plot_left)},
                  {"height", drawn(height)},
                  {"viewBox", "0 0 1000 1000"},
                  {"preserveAspectRatio", "none"},
                  {"class", "lines"}},
                 lines);
}

std::string path_of(const PlottedLine& line, const Axis& across, const Axis& up, Joined joined) {
  std::string path;
  for (const Point& point : line.points) {
    const std::string x = drawn(1000.0 * along(across, point.x));
    const std::string y = drawn(1000.0 * (1.0 - along(up, point.y)));
    if (path.empty())
      path = "M" + x + " " + y;
    else if (joined == Joined::in_steps)
      path += "H" + x + "V" + y;
    else
      path += "L" + x + " " + y;
  }
  return path;
}

}  // namespace

Markup role_legend() {
  Markup items;
  for (const RolePart& part : role_parts)
    items += element("li", element("svg", {{"width", "18"}, {"height", "12"}, {"aria-hidden", "true"}},
                                   shape("rect", {{"width", "18"}, {"height", "12"}, {"class", part.style}})) +
                               text(part.name));
  return element("ul", {{"class", "key"}}, items);
}

Markup horizontal_bars(const PlotWords& words, const std::string& measured, std::span<const NamedValue> values,
                       double full) {
  const double longest = full > 0.0 ? full : largest_of(values);
  Table behind{.caption = words.heading, .head = {words.things, measured}, .rows = {}};
  Markup content;
  double y = 0.0;
  for (const NamedValue& value : values) {
    content += label(0.0, y + name_baseline, "", value.name);
    content += label(1.0, y + name_baseline, "end", value.said, "small");
    content += bar(0.0, 1.0, y + bar_top, bar_height, "track");
    if (longest > 0.0) content += bar(0.0, value.value / longest, y + bar_top, bar_height, "series-1");
    behind.rows.push_back({value.name, value.said});
    y += row_height;
  }
  return figure(words, {}, y, content, behind);
}

Markup stacked_bars(const PlotWords& words, std::span<const RoleCounts> rows) {
  Table behind{.caption = words.heading, .head = {words.things, "notes"}, .rows = {}};
  for (const RolePart& part : role_parts) behind.head.emplace_back(part.name);
  Markup content;
  double y = 0.0;
  for (const RoleCounts& row : rows) {
    const int all = notes_of(row);
    std::vector<std::string> cells{row.name, std::to_string(all)};
    content += label(0.0, y + name_baseline, "", row.name);
    content += label(1.0, y + name_baseline, "end",
                     all == 0 ? "no notes" : share_text({row.chord_tones, all}) + " chord tones", "small");
    content += bar(0.0, 1.0, y + bar_top, bar_height, "track");
    double from = 0.0;
    for (const RolePart& part : role_parts) {
      const int count = row.*part.count;
      cells.push_back(std::to_string(count));
      if (count == 0) continue;
      const double width = static_cast<double>(count) / all;
      content += bar(from, width, y + bar_top, bar_height, part.style);
      from += width;
    }
    behind.rows.push_back(cells);
    y += row_height;
  }
  return figure(words, role_legend(), y, content, behind);
}

Markup histogram(const PlotWords& words, const Axis& axis, std::span<const double> values, const MarkedValue& mark) {
  constexpr double top = 30.0;
  constexpr double height = 150.0;
  const double width = axis.step / 2.0;
  const auto bins = std::max<std::size_t>(1, static_cast<std::size_t>(std::lround((axis.high - axis.low) / width)));
  std::vector<int> counts(bins, 0);
  for (const double value : values) {
    const double bin = std::floor((value - axis.low) / width + 1e-9);
    ++counts[static_cast<std::size_t>(std::clamp(bin, 0.0, static_cast<double>(bins - 1)))];
  }
  const Axis up = axis_from_zero("", std::max(1, *std::ranges::max_element(counts)));
  Table behind{.caption = words.heading, .head = {words.things, "from", "to", "how many"}, .rows = {}};
  Markup content = axis_left(up, top, height);
  for (std::size_t bin = 0; bin < bins; ++bin) {
    if (counts[bin] == 0) continue;
    const double from = axis.low + width * static_cast<double>(bin);
    const double tall = height * along(up, counts[bin]);
    content += bar(across_plot(along(axis, from)), (plot_right - plot_left) * width / (axis.high - axis.low),
                   top + height - tall, tall, "series-2 bin");
    const Axis fine{.name = "", .low = 0, .high = 1, .step = width, .numbers = axis.numbers};
    behind.rows.push_back(
        {axis.name, axis_number(from, fine), axis_number(from + width, fine), std::to_string(counts[bin])});
  }
  const double at = across_plot(along(axis, mark.value));
  content += shape("line", {{"x1", percent_of_width(at)},
                            {"x2", percent_of_width(at)},
                            {"y1", "20"},
                            {"y2", drawn(top + height)},
                            {"class", "mark"}});
  const double middle = along(axis, mark.value);
  content += label(at, 14,
                   middle < 0.2   ? "start"
                   : middle > 0.8 ? "end"
                                  : "middle",
                   mark.name + ": " + axis_number(mark.value, {.name = "", .step = 0.01, .numbers = axis.numbers}));
  behind.rows.push_back(
      {mark.name, axis_number(mark.value, {.name = "", .step = 0.01, .numbers = axis.numbers}), "", ""});
  content += axis_below(axis, top + height);
  return figure(words, {}, top + height + 40, content, behind);
}

Markup grouped_bars(const PlotWords& words, std::span<const Series> series, double full) {
  double longest = full;
  std::vector<std::string> names;
  Table behind{.caption = words.heading, .head = {words.things}, .rows = {}};
  for (const Series& one : series) {
    if (full <= 0.0) longest = std::max(longest, largest_of(one.values));
    names.push_back(one.name);
    behind.head.push_back(one.name);
  }
  constexpr double letter_width = 0.05;
  Markup content;
  double y = 0.0;
  for (std::size_t row = 0; !series.empty() && row < series.front().values.size(); ++row) {
    content += label(0.0, y + name_baseline, "", series.front().values[row].name);
    std::vector<std::string> cells{series.front().values[row].name};
    y += bar_top;
    for (std::size_t i = 0; i < series.size(); ++i) {
      const NamedValue& value = series[i].values.at(row);
      constexpr double room_for_words = 0.32;
      const double width = longest > 0.0 ? (1.0 - letter_width - room_for_words) * value.value / longest : 0.0;
      content += label(0.0, y + 11, "", std::string(1, letter(i)), "small");
      content += bar(letter_width, width, y, bar_height - 2, series_style(i));
      content += label(letter_width + width + 0.01, y + 10, "", value.said, "small");
      cells.push_back(value.said);
      y += bar_height + 1;
    }
    behind.rows.push_back(cells);
    y += 8.0;
  }
  return figure(words, series_legend(names, false), y, content, behind);
}

Markup line_plot(const PlotWords& words, const Axis& across, const Axis& up, std::span<const PlottedLine> lines,
                 Joined joined) {
  constexpr double top = 10.0;
  constexpr double height = 200.0;
  Table behind{.caption = words.heading, .head = {words.things, across.name, up.name}, .rows = {}, .numbers_from = 1};
  std::vector<std::string> names;
  Markup paths;
  Markup letters;
  const Axis fine_across{.name = "", .step = across.step / 100, .numbers = across.numbers};
  const Axis fine_up{.name = "", .step = up.step / 100, .numbers = up.numbers};
  for (std::size_t i = 0; i < lines.size(); ++i) {
    names.push_back(lines[i].name);
    for (const Point& point : lines[i].points)
      behind.rows.push_back({lines[i].name, axis_number(point.x, fine_across), axis_number(point.y, fine_up)});
    if (lines[i].points.empty()) continue;
    paths += shape("path", {{"class", "line " + series_style(i)}, {"d", path_of(lines[i], across, up, joined)}});
    const Point& last = lines[i].points.back();
    letters += label(std::min(0.995, across_plot(along(across, last.x)) + 0.012),
                     top + height * (1.0 - along(up, last.y)) + 4, "middle", std::string(1, letter(i)), "small");
  }
  const Markup content =
      axis_left(up, top, height) + line_box(top, height, paths) + letters + axis_below(across, top + height);
  return figure(words, series_legend(names, true), top + height + 40, content, behind);
}

Axis axis_from_zero(const std::string& name, double largest, Numbers numbers) {
  constexpr std::array<double, 3> rounds = {1.0, 2.0, 5.0};
  constexpr double most_steps = 6.0;
  double step = numbers == Numbers::percent ? 0.01 : 1.0;
  for (double scale = step;; scale *= 10.0) {
    for (const double round : rounds) {
      step = scale * round;
      const double high = step * std::max(1.0, std::ceil(largest / step - 1e-9));
      if (high / step <= most_steps + 1e-9)
        return {.name = name, .low = 0.0, .high = high, .step = step, .numbers = numbers};
    }
  }
}

std::string axis_number(double value, const Axis& axis) {
  const bool percents = axis.numbers == Numbers::percent;
  const double scale = percents ? 100.0 : 1.0;
  std::string number = fmt::format("{:.{}f}", value * scale, places_of(axis.step * scale));
  if (number.find('.') != std::string::npos) number.erase(number.find_last_not_of('0') + 1);
  if (number.ends_with('.')) number.pop_back();
  if (number == "-0") number = "0";
  return percents ? number + " %" : number;
}

}  // namespace insideline::reports
