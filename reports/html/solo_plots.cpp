#include "reports/html/solo_plots.hpp"

#include "analyzer/measures/beat_places.hpp"
#include "reports/html/plots.hpp"
#include "reports/tallies.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <iterator>
#include <vector>

namespace insideline::reports {
namespace {

RoleCounts counts_of(const std::string& name, const Density& density) {
  return {name, density.chord_tones, density.tensions, density.non_chord_tones, density.outside};
}

Markup by_beat_place(const Report& report) {
  std::vector<RoleCounts> rows;
  for (const PlaceDensity& place : measure_beat_places(report.solo, report.analysis))
    rows.push_back(counts_of(fmt::format("{}beat {}", place.after_beat ? "after " : "on ", place.beat), place.density));
  if (rows.empty()) return {};
  return stacked_bars({"By place in the bar", "What is played on each beat, and between it and the next.", "place"},
                      rows);
}

Markup by_chorus(const Report& report) {
  const std::vector<Density>& choruses = report.analysis.densities.by_chorus;
  std::vector<RoleCounts> rows;
  for (std::size_t i = 0; i < choruses.size(); ++i)
    rows.push_back(counts_of(fmt::format("chorus {}", i + 1), choruses[i]));
  if (rows.size() < 2) return {};
  return stacked_bars({"By chorus", "What each chorus is made of.", "chorus"}, rows);
}

Markup by_quality(const Report& report) {
  std::vector<RoleCounts> rows;
  for (const QualityDensity& group : report.analysis.densities.by_quality)
    rows.push_back(counts_of(to_string(group.quality), group.density));
  if (rows.empty()) return {};
  return stacked_bars({"By kind of chord", "What is played over each kind of chord.", "kind of chord"}, rows);
}

Markup chance_spread(const Report& report) {
  const Chance& chance = report.analysis.summary.chance;
  if (!chance.mean) return {};
  constexpr double step = 0.1;
  const auto [least, most] = std::ranges::minmax(chance.values);
  const double low = std::floor(std::min(least, chance.actual) / step) * step;
  const double high = std::min(1.0, std::ceil(std::max(most, chance.actual) / step + 1e-9) * step);
  const Axis axis{.name = "share of chord tones, strictly",
                  .low = low,
                  .high = std::max(high, low + step),
                  .step = step,
                  .numbers = Numbers::percent};
  return histogram({"These changes, or luck?",
                    fmt::format("The line marked over these changes, and as columns over the same changes shifted "
                                "by whole bars: {}, {} on average.",
                                counted(chance.shifts, "other way", "other ways"), percent(*chance.mean)),
                    "what"},
                   axis, chance.values, {chance.actual, "this line"});
}

NamedValue named(const std::string& name, int count, int of) {
  return {name, static_cast<double>(count), of > 0 ? share_text({count, of}) : std::to_string(count)};
}

Markup degrees_used(const Report& report) {
  const Densities& densities = report.analysis.densities;
  std::vector<NamedValue> values;
  for (const DegreeCount& degree : densities.by_degree)
    values.push_back(named(with_accidentals(to_string(degree.degree)), degree.count, densities.all.notes));
  if (values.empty()) return {};
  return horizontal_bars({"Degrees used", "Each note against the chord it is heard against.", "degree"}, "notes",
                         values);
}

Markup arpeggio_ways(const Report& report) {
  const Summary& summary = report.analysis.summary;
  const int legs = summary.arpeggios_ascending + summary.arpeggios_descending;
  if (legs == 0) return {};
  const auto named_here = [&](const char* name, int count) { return named(name, count, legs); };
  const std::vector<NamedValue> values{named_here("up", summary.arpeggios_ascending),
                                       named_here("down", summary.arpeggios_descending),
                                       named_here("of all, straight down", summary.straight_descents)};
  return horizontal_bars(
      {"Which way arpeggios run", "Leg by leg. Straight down: no climb through the same chord leads to it.", "way"},
      "legs", values);
}

Markup arpeggio_lowest(const Report& report) {
  std::vector<NamedValue> values;
  for (const Tally& tally : arpeggio_inversions(report.analysis.arpeggios))
    values.push_back(named(tally.name, static_cast<int>(tally.where.size()), report.analysis.summary.arpeggios));
  if (values.empty()) return {};
  return horizontal_bars({"Inversions of the arpeggios", "By the lowest note of each.", "inversion"}, "arpeggios",
                         values);
}

Markup connection_kinds(const Report& report) {
  const Summary& summary = report.analysis.summary;
  if (summary.connections == 0) return {};
  std::vector<NamedValue> values;
  for (const auto& [kind, count] : summary.connections_by_kind)
    values.push_back(
        named(kind == ConnectionKind::none ? "not at all (rest)" : to_string(kind), count, summary.connections));
  return horizontal_bars({"Connections", "How the line connects the chords at each change.", "connection"},
                         "changes of chord", values);
}

/// Mean lateness by beat of the bar; ahead of the beat is below zero.
Markup time_by_beat(const Report& report) {
  const auto& feel = report.analysis.time_feel;
  if (!feel || feel->by_beat.size() < 2) return {};
  constexpr double step = 10.0;
  PlottedLine line{.name = "mean of this solo", .points = {}};
  double low = 0.0;
  double high = step;
  for (const BeatLateness& row : feel->by_beat) {
    line.points.push_back({static_cast<double>(row.beat), row.lateness.mean_ms});
    low = std::min(low, std::floor(row.lateness.mean_ms / step) * step);
    high = std::max(high, std::ceil(row.lateness.mean_ms / step) * step);
  }
  const double room = std::max(step, std::ceil((high - low) / (6.0 * step)) * step);
  const Axis up{.name = "milliseconds behind the beat", .low = low, .high = high, .step = room};
  const Axis across{.name = "beat of the bar",
                    .low = static_cast<double>(feel->by_beat.front().beat),
                    .high = static_cast<double>(feel->by_beat.back().beat),
                    .step = 1.0};
  return line_plot({"Ahead of the beat or behind it",
                    "Milliseconds behind each beat on average; below zero is ahead of it.", "line"},
                   across, up, std::vector<PlottedLine>{line});
}

Markup swing_quartiles(const Report& report) {
  const auto& feel = report.analysis.time_feel;
  if (!feel || !feel->swing) return {};
  const Swing& swing = *feel->swing;
  const auto named_ratio = [](const char* name, double ratio) {
    return NamedValue{name, ratio, fmt::format("{:.2f} to 1", ratio)};
  };
  const std::vector<NamedValue> values{named_ratio("a quarter of the pairs below", swing.lower),
                                       named_ratio("half of the pairs below", swing.ratio),
                                       named_ratio("three quarters below", swing.upper)};
  return horizontal_bars(
      {"Swing",
       fmt::format("Long to short eighth, over {}; 1 to 1 is even, 2 to 1 a triplet.", counted(swing.pairs, "pair")),
       "of the pairs"},
      "long to short", values);
}

}  // namespace

Markup solo_plots(const Report& report) {
  using Plot = Markup (*)(const Report& report);
  constexpr Plot plots[] = {by_beat_place, by_chorus,       by_quality,       chance_spread, degrees_used,
                            arpeggio_ways, arpeggio_lowest, connection_kinds, time_by_beat,  swing_quartiles};
  Markup all;
  for (const Plot plot : plots) all += plot(report);
  return all.empty() ? all : element("div", {{"class", "plots"}}, all);
}

}  // namespace insideline::reports
