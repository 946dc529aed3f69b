#include "reports/comparison/note_lines.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::reports {
namespace {

constexpr double row_height = 5.0;        // of a semitone
constexpr double above = 20.0;            // room for the bar numbers
constexpr std::size_t numbers_apart = 4;  // bars from one number to the next

/// What all panels share.
struct Axes {
  double quarters = 1.0;
  int lowest = 127;
  int highest = 0;
};

struct Span {
  Beats onset;
  Beats end;
};

Span span_of(const LinePanel& panel) {
  const Bar& last = panel.report->solo.bars[panel.last_bar];
  return {.onset = panel.report->solo.bars[panel.first_bar].onset, .end = last.onset + last.length};
}

bool holds(const Span& span, const Note& note) {
  return !note.grace && note.onset >= span.onset && note.onset < span.end;
}

Axes axes_of(const std::vector<LinePanel>& panels) {
  Axes axes;
  for (const LinePanel& panel : panels) {
    const Span span = span_of(panel);
    axes.quarters = std::max(axes.quarters, to_double(span.end - span.onset));
    for (const Note& note : panel.report->solo.notes) {
      if (!holds(span, note)) continue;
      axes.lowest = std::min(axes.lowest, midi_number(note.pitch));
      axes.highest = std::max(axes.highest, midi_number(note.pitch));
    }
  }
  if (axes.lowest > axes.highest) axes.lowest = axes.highest;
  return axes;
}

/// Colour and thickness say the same, for print in black and white.
struct Stroke {
  const char* name;
  const char* style;
  double thickness;
};

Stroke stroke_of(Role role) {
  switch (role) {
    case Role::chord_tone: return {"chord tone: thick", "series-1", 4.8};
    case Role::tension: return {"tension: less thick", "series-3", 3.4};
    case Role::non_chord_tone: return {"non-chord tone: thin", "series-4", 2.2};
    case Role::outside: return {"outside: thin and dark", "series-6", 2.2};
    case Role::no_chord: return {"no chord: grey", "series-5", 3.4};
  }
  return {};
}

Markup legend() {
  Markup items;
  for (const Role role : {Role::chord_tone, Role::tension, Role::non_chord_tone, Role::outside, Role::no_chord}) {
    const Stroke stroke = stroke_of(role);
    const Markup sample = shape("rect", {{"width", "24"},
                                         {"y", drawn(6 - stroke.thickness / 2)},
                                         {"height", drawn(stroke.thickness)},
                                         {"class", stroke.style}});
    items += element(
        "li", element("svg", {{"width", "24"}, {"height", "12"}, {"aria-hidden", "true"}}, sample) + text(stroke.name));
  }
  return element("ul", {{"class", "key"}}, items);
}

std::string across(double quarters, const Axes& axes) { return fmt::format("{:.3f}%", quarters / axes.quarters * 100); }

Markup bar_lines(const LinePanel& panel, const Axes& axes, double height) {
  Markup lines;
  const Span span = span_of(panel);
  for (std::size_t i = panel.first_bar; i <= panel.last_bar; ++i) {
    const Bar& bar = panel.report->solo.bars[i];
    const std::string x = across(to_double(bar.onset - span.onset), axes);
    lines += shape("line", {{"x1", x}, {"x2", x}, {"y1", drawn(above)}, {"y2", drawn(height)}, {"class", "grid"}});
    const bool numbered = bar.number >= 1 && (static_cast<std::size_t>(bar.number) - 1) % numbers_apart == 0;
    if (numbered) lines += element("text", {{"x", x}, {"y", "14"}, {"class", "small"}}, std::to_string(bar.number));
  }
  return lines;
}

Markup panel_drawing(const LinePanel& panel, const Axes& axes) {
  const Span span = span_of(panel);
  const double height = above + row_height * (axes.highest - axes.lowest + 2);
  Markup content = bar_lines(panel, axes, height);
  int count = 0;
  const auto& notes = panel.report->solo.notes;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    if (!holds(span, notes[i])) continue;
    ++count;
    const Stroke stroke = stroke_of(panel.report->analysis.labels[i].role);
    const double middle = above + row_height * (axes.highest - midi_number(notes[i].pitch) + 1);
    content += shape("rect", {{"x", across(to_double(notes[i].onset - span.onset), axes)},
                              {"y", drawn(middle - stroke.thickness / 2)},
                              {"width", across(to_double(notes[i].duration), axes)},
                              {"height", drawn(stroke.thickness)},
                              {"class", stroke.style}});
  }
  const std::string says =
      fmt::format("{}: {} notes in {} bars", panel.name, count, panel.last_bar - panel.first_bar + 1);
  return element("h3", panel.name) +
         element("svg", {{"class", "plot"}, {"role", "img"}, {"aria-label", says}, {"height", drawn(height)}}, content);
}

/// A section that comes several times is drawn each time.
void add_runs(std::vector<LinePanel>& panels, const ComparedSolo& part, const Report& read) {
  const std::size_t before = panels.size();
  for (const std::size_t bar : part.of_bars) {
    const bool goes_on = panels.size() > before && panels.back().last_bar + 1 == bar;
    if (!goes_on) panels.push_back({.name = part.name, .report = &read, .first_bar = bar, .last_bar = bar});
    panels.back().last_bar = bar;
  }
  if (panels.size() - before < 2) return;
  for (std::size_t i = before; i < panels.size(); ++i)
    panels[i].name += fmt::format(", from bar {}", read.solo.bars[panels[i].first_bar].number);
}

}  // namespace

std::vector<LinePanel> line_panels(const ComparisonReport& report) {
  std::vector<LinePanel> panels;
  std::size_t first = 0;
  for (std::size_t i = 0; i < report.solos.size(); ++i) {
    const Report& read = report.read[report.read.size() == 1 ? 0 : i];
    if (report.occasion == Occasion::sections) {
      add_runs(panels, report.solos[i], read);
      continue;
    }
    const auto bars = static_cast<std::size_t>(report.solos[i].bars);
    if (!report.solos[i].of_bars.empty()) first = report.solos[i].of_bars.front();
    if (bars > 0)
      panels.push_back(
          {.name = report.solos[i].name, .report = &read, .first_bar = first, .last_bar = first + bars - 1});
    if (report.read.size() == 1) first += bars;
  }
  return panels;
}

Markup note_lines(const std::vector<LinePanel>& panels) {
  const Axes axes = axes_of(panels);
  Markup drawings;
  for (const LinePanel& panel : panels) drawings += panel_drawing(panel, axes);
  return element(
      "figure",
      element("figcaption", element("p",
                                    "A stroke is a note, as long as it sounds; all lines have the same bars under each "
                                    "other and the same height for the same pitch.")) +
          legend() + drawings);
}

}  // namespace insideline::reports
