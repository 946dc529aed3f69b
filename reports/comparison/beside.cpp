#include "reports/comparison/beside.hpp"

#include "reports/text/wording.hpp"

#include <fmt/format.h>

namespace insideline::reports {
namespace {

std::vector<PlacedBar> placed_bars(const ComparisonReport& report, std::size_t index) {
  const Report& read = report_of_solo(report, index);
  if (report.occasion == Occasion::solos || report.occasion == Occasion::before_after) return bars_by_number(read.solo);
  const bool has_places = report.occasion == Occasion::choruses && read.analysis.harmony.chorus_length > Beats{};
  return has_places ? bars_by_form(read.solo, read.analysis.harmony, report.solos[index].of_bars)
                    : std::vector<PlacedBar>{};
}

LaidLine laid_line(const ComparisonReport& report, std::size_t index) {
  const Report& read = report_of_solo(report, index);
  return {.solo = &read.solo, .labels = read.analysis.labels, .bars = placed_bars(report, index)};
}

}  // namespace

const Report& report_of_solo(const ComparisonReport& report, std::size_t index) {
  return report.read[report.read.size() == 1 ? 0 : index];
}

std::vector<BesideFirst> solos_beside_first(const ComparisonReport& report) {
  std::vector<BesideFirst> pairs;
  const LaidLine first = laid_line(report, 0);
  for (std::size_t other = 1; other < report.solos.size(); ++other) {
    BesideFirst pair{.other = other, .bars = same_bars(first, laid_line(report, other))};
    if (!pair.bars.bars.empty()) pairs.push_back(std::move(pair));
  }
  return pairs;
}

std::string bar_name(const ComparisonReport& report, const BesideFirst& pair, const SameBar& bar) {
  const int first = report_of_solo(report, 0).solo.bars[bar.first_bar].number;
  const int other = report_of_solo(report, pair.other).solo.bars[bar.other_bar].number;
  if (first < 1 && other < 1) return "pickup";
  return first == other ? fmt::format("bar {}", first) : fmt::format("bars {} and {}", first, other);
}

BesideCounts counts_of(const SameBar& bar) {
  BesideCounts counts;
  for (const NoteBeside& note : bar.first) {
    switch (note.difference) {
      case NoteDifference::none: ++counts.same; break;
      case NoteDifference::pitch: ++counts.other_pitch; break;
      case NoteDifference::role: ++counts.other_role; break;
      case NoteDifference::pitch_and_role: ++counts.other_pitch_and_role; break;
      case NoteDifference::alone: ++counts.only_first; break;
    }
  }
  for (const NoteBeside& note : bar.other) counts.only_other += note.difference == NoteDifference::alone ? 1 : 0;
  return counts;
}

std::string counts_in_words(const ComparisonReport& report, const BesideFirst& pair, const SameBar& bar) {
  if (bar.first.empty() && bar.other.empty()) return "both rest";
  const BesideCounts counts = counts_of(bar);
  const std::string& first = report.solos.front().name;
  const std::string& other = report.solos[pair.other].name;
  std::vector<std::string> parts;
  const auto add = [&](int count, const std::string& what) {
    if (count > 0) parts.push_back(fmt::format("{} {}", count, what));
  };
  add(counts.same, "the same");
  add(counts.other_pitch, "of another pitch");
  add(counts.other_role, "in another role");
  add(counts.other_pitch_and_role, "of another pitch and role");
  add(counts.only_first, "only in " + first);
  add(counts.only_other, "only in " + other);
  if (bar.first.empty()) parts.push_back(first + " rests");
  if (bar.other.empty()) parts.push_back(other + " rests");
  return fmt::format("{}", fmt::join(parts, ", "));
}

std::string how_bars_differ() {
  return "Note by note: a note counts a half where the other line strikes another pitch at its moment (a sixth of a "
         "quarter early or late is still its moment), a half where that one is heard in another role, and whole where "
         "the other line strikes nothing. How far two bars are apart is the mean over the notes of both: 0 % is the "
         "same bar, 100 % has nothing in common.";
}

}  // namespace insideline::reports
