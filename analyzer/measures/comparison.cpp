#include "analyzer/measures/comparison.hpp"

#include "analyzer/measures/summary.hpp"
#include "analyzer/model/sections.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <iterator>
#include <map>

#include <fmt/format.h>

namespace insideline {
namespace {

// Below these nothing is judged, or the reader is warned (chosen, no source).
constexpr double fewest_counted = 8;
constexpr std::size_t fewest_bars = 4;
constexpr double enough_blocks = 2;
constexpr double usable_draws = 0.9;  // a draw is lost where none of the bars drawn has anything to count

ComparedSolo part_of(std::string name, const ComparedSolo& solo, std::span<const std::size_t> bars,
                     const Material& material) {
  ComparedSolo part;
  part.name = std::move(name);
  part.bars = static_cast<int>(bars.size());
  part.of_bars.assign(bars.begin(), bars.end());
  const auto is_in = [&](std::size_t bar) { return std::ranges::find(bars, bar) != bars.end(); };
  for (const BarSeries& series : solo.figures) {
    BarSeries& some = part.figures.emplace_back();
    for (const std::size_t bar : bars) some.push_back(series[bar]);
  }
  for (const HeardNote& note : material.line.notes) part.notes += is_in(note.bar) ? 1 : 0;
  for (const Connection& change : material.analysis.connections) {
    const Beats& onset = material.analysis.harmony.chords[change.to_chord].onset;
    part.changes += is_in(bar_index_at(material.solo, onset)) ? 1 : 0;
  }
  return part;
}

/// The indices of the section's bars; a pickup goes with the first bar.
void add_bars(std::vector<std::size_t>& bars, const Solo& solo, const SoundingSection& section) {
  for (std::size_t bar = 0; bar < solo.bars.size(); ++bar) {
    const int number = std::max(solo.bars[bar].number, 1);
    if (number >= section.first_bar && number <= section.last_bar) bars.push_back(bar);
  }
}

ComparedSolo whole(std::string name, const Material& material) {
  ComparedSolo solo;
  solo.name = std::move(name);
  solo.bars = static_cast<int>(material.solo.bars.size());
  solo.notes = static_cast<int>(material.line.notes.size());
  solo.changes = static_cast<int>(material.analysis.connections.size());
  for (const FigureRow& row : figure_rows()) solo.figures.push_back(row.by_bar(material));
  return solo;
}

/// Whole numbers, as a share of counted things has them.
Share counted(const BarAmount& sum) {
  return {.count = static_cast<int>(std::lround(sum.part)), .of = static_cast<int>(std::lround(sum.whole))};
}

bool is_all_or_none(const Share& share) { return share.count == 0 || share.count == share.of; }

FigureValue value_of(const BarSeries& bars) {
  FigureValue value;
  for (const BarAmount& bar : bars)
    value.sum = {.part = value.sum.part + bar.part, .whole = value.sum.whole + bar.whole};
  value.value = quotient(bars);
  value.block = std::min(block_length(bars), std::max<std::size_t>(bars.size(), 1));
  return value;
}

/// a minus b, over and over from bars drawn again. Which of the two gets which stream hangs on their bars and not on
/// their order, so that swapping them turns the signs round exactly.
std::vector<double> drawn_differences(const BarSeries& a, std::size_t block_a, const BarSeries& b, std::size_t block_b,
                                      const ComparisonSettings& settings) {
  const bool a_first = a < b;
  Draws draws_a(settings.seed, a_first ? 1 : 2);
  Draws draws_b(settings.seed, a_first ? 2 : 1);
  const BarRing ring_a(a);
  const BarRing ring_b(b);
  std::vector<double> differences;
  for (int i = 0; i < settings.resamples; ++i) {
    const auto of_a = ring_a.drawn(block_a, draws_a);
    const auto of_b = ring_b.drawn(block_b, draws_b);
    if (of_a && of_b) differences.push_back(*of_a - *of_b);
  }
  return differences;
}

Verdict verdict_of(const Interval95& interval) {
  if (interval.low > 0.0) return Verdict::more;
  if (interval.high < 0.0) return Verdict::less;
  return Verdict::no_clear_difference;
}

/// Where all or none of the notes are of a kind, every draw says the same; what Newcombe's interval says of so few
/// is then the least that must be allowed for.
Interval95 allowing_for_all_or_none(const Interval95& interval, const Share& a, const Share& b) {
  if (!is_all_or_none(a) && !is_all_or_none(b)) return interval;
  const auto independent = newcombe_interval(a, b);
  if (!independent) return interval;
  return {.low = std::min(interval.low, independent->low), .high = std::max(interval.high, independent->high)};
}

FigureDifference difference_of(const FigureRow& row, const BarSeries& a, const FigureValue& of_a, const BarSeries& b,
                               const FigureValue& of_b, const ComparisonSettings& settings) {
  FigureDifference result;
  if (!of_a.value || !of_b.value) return result;
  result.difference = *of_a.value - *of_b.value;
  if (is_share(row.unit) && of_a.sum.part <= 0.0 && of_b.sum.part <= 0.0) {
    result.verdict = Verdict::in_neither;
    return result;
  }
  const double blocks = std::min(static_cast<double>(a.size()) / static_cast<double>(of_a.block),
                                 static_cast<double>(b.size()) / static_cast<double>(of_b.block));
  const bool enough = of_a.sum.whole >= fewest_counted && of_b.sum.whole >= fewest_counted &&
                      std::min(a.size(), b.size()) >= fewest_bars && blocks >= enough_blocks;
  if (!enough) return result;
  std::vector<double> draws = drawn_differences(a, of_a.block, b, of_b.block, settings);
  if (static_cast<double>(draws.size()) < usable_draws * settings.resamples) return result;
  Interval95 interval = widened_interval(std::move(draws), blocks);
  if (is_share_of_counted(row.unit))
    interval = allowing_for_all_or_none(interval, counted(of_a.sum), counted(of_b.sum));
  result.interval = interval;
  result.verdict = verdict_of(interval);
  return result;
}

std::vector<std::string> cautions_about(const ComparedSolo& solo) {
  std::vector<std::string> cautions;
  const auto few = [&](int number, int enough, const char* one, const char* many) {
    if (number < enough)
      cautions.push_back(fmt::format("{} has only {} {}: from fewer than {} little can be said", solo.name, number,
                                     number == 1 ? one : many, enough));
  };
  few(solo.notes, enough_notes, "note", "notes");
  few(solo.changes, enough_changes, "change of chord", "changes of chord");
  std::size_t longest = 1;
  for (const BarSeries& series : solo.figures) longest = std::max(longest, block_length(series));
  if (solo.bars < enough_blocks * static_cast<double>(longest))
    cautions.push_back(fmt::format("{} has only {} {}, fewer than two of the runs of {} that they would be drawn in",
                                   solo.name, solo.bars, solo.bars == 1 ? "bar" : "bars", longest));
  return cautions;
}

}  // namespace

ComparedSolo compared_solo(std::string name, const Solo& solo, const Analysis& analysis) {
  return whole(std::move(name), Material(solo, analysis));
}

std::vector<ComparedSolo> compared_choruses(const Solo& solo, const Analysis& analysis) {
  const Material material(solo, analysis);
  const ComparedSolo all = whole("chorus 1", material);
  const Harmony& harmony = analysis.harmony;
  if (harmony.chorus_length <= Beats{}) return {all};
  std::vector<std::vector<std::size_t>> choruses;
  std::int64_t first = 0;  // how often the form has come round before the first full bar
  for (std::size_t bar = 0; bar < solo.bars.size(); ++bar) {
    const std::int64_t round = whole_units(solo.bars[bar].onset - harmony.first_chorus, harmony.chorus_length);
    const bool in_full = solo.bars[bar].number >= 1;
    if (in_full && choruses.empty()) first = round;
    if (choruses.empty()) choruses.emplace_back();
    if (in_full) choruses.resize(std::max(choruses.size(), static_cast<std::size_t>(round - first + 1)));
    choruses.back().push_back(bar);
  }
  std::vector<ComparedSolo> parts;
  for (std::size_t i = 0; i < choruses.size(); ++i)
    parts.push_back(part_of(fmt::format("chorus {}", i + 1), all, choruses[i], material));
  return parts;
}

std::vector<ComparedSolo> compared_sections(const Solo& solo, const Analysis& analysis) {
  std::vector<std::string> names;
  std::map<std::string, std::vector<std::size_t>> bars;
  for (const SoundingSection& section : analysis.harmony.sections) {
    if (!bars.contains(section.name)) names.push_back(section.name);
    add_bars(bars[section.name], solo, section);
  }
  std::vector<ComparedSolo> parts;
  if (names.empty()) return parts;
  const Material material(solo, analysis);
  const ComparedSolo all = whole("", material);
  for (const std::string& name : names) parts.push_back(part_of("section " + name, all, bars[name], material));
  return parts;
}

std::vector<ComparedSolo> compared_section_by_chorus(const Solo& solo, const Analysis& analysis,
                                                     const std::string& wanted) {
  const std::span<const SoundingSection> sections = analysis.harmony.sections;
  std::vector<ComparedSolo> parts;
  if (sections_named(sections, wanted).empty()) return parts;
  const Material material(solo, analysis);
  const ComparedSolo all = whole("", material);
  for (int chorus = 1; chorus <= analysis.harmony.choruses; ++chorus) {
    std::vector<SoundingSection> of_chorus;
    std::ranges::copy_if(sections, std::back_inserter(of_chorus),
                         [&](const SoundingSection& section) { return section.chorus == chorus; });
    std::vector<std::size_t> bars;
    for (const std::size_t index : sections_named(of_chorus, wanted)) add_bars(bars, solo, of_chorus[index]);
    if (!bars.empty()) parts.push_back(part_of(fmt::format("chorus {}, {}", chorus, wanted), all, bars, material));
  }
  return parts;
}

Comparison compare(std::span<const ComparedSolo> solos, const ComparisonSettings& settings) {
  assert(solos.size() >= 2 && settings.resamples > 0 && "there must be something to compare");
  const auto rows = figure_rows();
  Comparison comparison;
  for (const ComparedSolo& solo : solos) {
    SoloComparison& side = comparison.solos.emplace_back();
    for (const BarSeries& series : solo.figures) side.values.push_back(value_of(series));
    for (const std::string& caution : cautions_about(solo)) comparison.cautions.push_back(caution);
    if (comparison.solos.size() == 1) continue;
    const SoloComparison& first = comparison.solos.front();
    for (std::size_t i = 0; i < rows.size(); ++i) {
      side.differences.push_back(
          difference_of(rows[i], solo.figures[i], side.values[i], solos.front().figures[i], first.values[i], settings));
      if (side.differences.back().interval) ++side.judged;
    }
  }
  return comparison;
}

}  // namespace insideline
