#include "reports/comparison/sentences.hpp"

#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace insideline::reports {
namespace {

/// What stands behind a number that is no share: "0.3 beats".
const char* measure_of(FigureUnit unit) {
  switch (unit) {
    case FigureUnit::notes:
    case FigureUnit::time:
    case FigureUnit::arpeggios:
    case FigureUnit::connections:
    case FigureUnit::chords:
    case FigureUnit::phrases:
    case FigureUnit::points: return " points";
    case FigureUnit::per_bar: return " a bar";
    case FigureUnit::in_notes: return " notes";
    case FigureUnit::in_beats: return " beats";
    case FigureUnit::in_semitones: return " semitones";
    case FigureUnit::in_bits: return " bits";
  }
  return "";
}

bool in_hundredths(FigureUnit unit) { return is_share(unit) || unit == FigureUnit::points; }

/// One place more where a number would otherwise read as nothing: "13", "0.4"; "0.7", "0.04".
std::string size_text(FigureUnit unit, double size) {
  const double shown = in_hundredths(unit) ? size * 100 : size;
  const double smallest = in_hundredths(unit) ? 1.0 : 0.1;
  const bool small = shown < smallest / 2;
  if (shown < smallest / 20) return "0";
  if (in_hundredths(unit)) return small ? fmt::format("{:.1f}", shown) : fmt::format("{:.0f}", shown);
  return small ? fmt::format("{:.2f}", shown) : fmt::format("{:.1f}", shown);
}

/// "71 % (50 of 70)", "5.2 a bar".
std::string said(const FigureRow& row, const FigureValue& value) {
  const BarAmount& sum = value.sum;
  if (is_share_of_counted(row.unit))
    return fmt::format("{} ({:.0f} of {:.0f})", percent(*value.value), sum.part, sum.whole);
  if (is_share(row.unit)) return fmt::format("{} ({:.0f} of {:.0f} beats)", percent(*value.value), sum.part, sum.whole);
  return figure_text(row, value) + measure_of(row.unit);
}

/// "between 6 and 20 points"; for a clear difference both ends lie on one side.
std::string span_text(const FigureRow& row, const Interval95& interval) {
  const double near = std::min(std::abs(interval.low), std::abs(interval.high));
  const double far = std::max(std::abs(interval.low), std::abs(interval.high));
  const std::string rounded = size_text(row.unit, near);
  const std::string from = rounded == "0" ? "just above 0" : rounded;
  const std::string to = size_text(row.unit, far);
  if (from == to) return fmt::format("about {}{}", from, measure_of(row.unit));
  return fmt::format("between {} and {}{}", from, to, measure_of(row.unit));
}

std::string both_values(const ComparisonReport& report, std::size_t other, std::size_t row) {
  const FigureRow& figure = figure_rows()[row];
  return fmt::format("{} against {}{}", said(figure, report.comparison.solos[other].values[row]),
                     said(figure, report.comparison.solos.front().values[row]),
                     report.occasion == Occasion::before_after ? " before" : "");
}

std::string_view things_compared(const ComparisonReport& report) {
  switch (report.occasion) {
    case Occasion::choruses: return "choruses";
    case Occasion::sections: return "sections";
    case Occasion::solos:
    case Occasion::before_after: return "solos";
  }
  return {};
}

}  // namespace

std::string figure_text(const FigureRow& row, const FigureValue& value) {
  if (!value.value) return "-";
  if (is_share(row.unit)) return percent(*value.value);
  return row.unit == FigureUnit::points ? difference_text(row, *value.value) : fmt::format("{:.1f}", *value.value);
}

std::string counts_text(const FigureValue& value) {
  return value.value ? fmt::format("{:.0f}/{:.0f}", value.sum.part, value.sum.whole) : "-";
}

std::string difference_text(const FigureRow& row, double difference) {
  const std::string size = size_text(row.unit, std::abs(difference));
  return size == "0" ? size : (difference > 0 ? "+" : "-") + size;
}

std::string subject(const ComparisonReport& report, std::size_t solo) {
  std::string name = report.occasion == Occasion::before_after ? (solo == 0 ? "the earlier take" : "the later take")
                                                               : report.solos[solo].name;
  if (report.occasion != Occasion::solos && name.front() >= 'a' && name.front() <= 'z')
    name.front() = static_cast<char>(name.front() - 'a' + 'A');
  return name;
}

std::string sentence_about(const ComparisonReport& report, std::size_t other, std::size_t row) {
  const FigureRow& figure = figure_rows()[row];
  const FigureDifference& difference = report.comparison.solos[other].differences[row];
  switch (difference.verdict) {
    case Verdict::more:
    case Verdict::less:
      return fmt::format("{} {}: {}; the difference is {}.", subject(report, other),
                         difference.verdict == Verdict::more ? figure.more : figure.less,
                         both_values(report, other, row), span_text(figure, *difference.interval));
    case Verdict::no_clear_difference:
      return fmt::format("No clear difference in {}: {}; the difference may be anything from {} to {}{}.", figure.name,
                         both_values(report, other, row), difference_text(figure, difference.interval->low),
                         difference_text(figure, difference.interval->high), measure_of(figure.unit));
    case Verdict::in_neither: return fmt::format("None in either: {}.", figure.name);
    case Verdict::too_few: return fmt::format("Too little to compare {}.", figure.name);
  }
  return {};
}

Findings findings_about(const ComparisonReport& report, std::size_t other) {
  Findings findings;
  const SoloComparison& side = report.comparison.solos[other];
  const SoloComparison& first = report.comparison.solos.front();
  for (std::size_t row = 0; row < figure_rows().size(); ++row) {
    const FigureRow& figure = figure_rows()[row];
    const Verdict verdict = side.differences[row].verdict;
    const bool main = figure.rank == FigureRank::main;
    if (verdict == Verdict::in_neither) {
      findings.in_neither.emplace_back(figure.name);
    } else if (verdict == Verdict::too_few) {
      if (main) findings.too_few.emplace_back(figure.name);
    } else if (verdict == Verdict::no_clear_difference) {
      if (main) findings.not_clear.emplace_back(figure.name);
      if (!main) ++findings.details_not_clear;
    } else if (main) {
      findings.clear.push_back(sentence_about(report, other, row));
    } else {
      findings.clear_details.push_back(fmt::format("{} ({}, not {})", figure.name,
                                                   figure_text(figure, side.values[row]),
                                                   figure_text(figure, first.values[row])));
    }
  }
  return findings;
}

std::string many_looks(const ComparisonReport& report) {
  int judged = 0;
  for (const SoloComparison& side : report.comparison.solos) judged += side.judged;
  constexpr double misses = 0.05;  // of the intervals
  const int by_luck = static_cast<int>(std::lround(judged * misses));
  return fmt::format(
      "{} could be judged. If there were no difference at all, about {} of them would still look clear "
      "by luck.",
      counted(judged, "comparison"), by_luck);
}

std::string how_sure(const ComparisonReport& report) {
  std::size_t longest = 1;
  for (const SoloComparison& side : report.comparison.solos)
    for (const FigureValue& value : side.values) longest = std::max(longest, value.block);
  const std::string runs = longest == 1 ? std::string("one at a time")
                                        : fmt::format("in runs of up to {}, since neighbours belong together", longest);
  return fmt::format(
      "To see how much each figure hangs on which bars happened to be played, the bars of each were drawn again {} "
      "times, {}. A difference is called clear where 0 lies outside the range that holds it 95 times in 100. All this "
      "is about these {}, not about what their players can do.",
      report.settings.resamples, runs, things_compared(report));
}

std::string comparison_title(const ComparisonReport& report) {
  const Report& first = report.read.front();
  const std::string title = first.solo.title.empty() ? first.source.solo_file : first.solo.title;
  const auto parts = static_cast<int>(report.solos.size());
  if (report.occasion == Occasion::choruses)
    return fmt::format("{}: {} side by side", title, counted(parts, "chorus", "choruses"));
  if (report.occasion == Occasion::sections)
    return fmt::format("{}: {} side by side", title, counted(parts, "section"));
  std::vector<std::string> names;
  for (const ComparedSolo& solo : report.solos) names.push_back(solo.name);
  return listed(names) + " side by side";
}

}  // namespace insideline::reports
