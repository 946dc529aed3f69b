#include "reports/assessment/course_words.hpp"

#include "reports/text/time_wording.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <cmath>

namespace insideline::reports {
namespace {

std::string coverage_sentence(const Coverage& coverage) {
  if (coverage.bars.of == 0) return {};
  if (coverage.silent.empty()) return fmt::format("Played: all {}.", counted(coverage.bars.of, "bar"));
  return fmt::format("Played: {} of {}; nothing of {}.", coverage.bars.count, counted(coverage.bars.of, "bar"),
                     bars_in_words(coverage.silent));
}

/// "about half a quarter note", "about 2 and a half quarter notes": to the nearest half, as one counts.
std::string quarters_in_words(double quarters) {
  const auto halves = std::max(1L, std::lround(quarters * 2.0));
  const auto whole = halves / 2;
  if (halves == 1) return "about half a quarter note";
  if (halves == 2) return "about a quarter note";
  return fmt::format("about {}{} quarter notes", whole, halves % 2 == 1 ? " and a half" : "");
}

std::string interruption_in_words(const Interruption& interruption) {
  switch (interruption.how) {
    case Broken::began_again:
      return fmt::format("broken off in bar {} and begun again from bar {}", interruption.bar, interruption.on_in);
    case Broken::left_out:
      return fmt::format("after bar {} on to bar {}, with what lies between left out", interruption.bar,
                         interruption.on_in);
    case Broken::stopped:
      return fmt::format("{} too late into bar {}", quarters_in_words(interruption.quarters), interruption.on_in);
    case Broken::came_early:
      return fmt::format("{} too early into bar {}", quarters_in_words(interruption.quarters), interruption.on_in);
  }
  return {};
}

std::string interruptions_sentence(const Assessment& assessment) {
  constexpr std::size_t most = 8;
  std::vector<std::string> items;
  for (const Interruption& interruption : assessment.interruptions)
    if (items.size() < most) items.push_back(interruption_in_words(interruption));
  if (assessment.interruptions.size() > most)
    items.push_back(fmt::format("{} times more", assessment.interruptions.size() - most));
  std::string text = items.empty() ? "" : fmt::format("Breaks: {}.", fmt::join(items, "; "));
  if (assessment.passes > 1)
    text += fmt::format("{}Played through {} times.", text.empty() ? "" : " ", assessment.passes);
  return text;
}

std::string hesitations_sentence(const std::vector<std::string>& bars) {
  constexpr std::size_t most = 8;
  if (bars.empty()) return {};
  std::vector<std::string> items(bars.begin(), bars.begin() + static_cast<std::ptrdiff_t>(std::min(most, bars.size())));
  items.erase(std::unique(items.begin(), items.end()), items.end());
  return fmt::format("A note comes clearly too late or too early in bar{} {}.", items.size() == 1 ? "" : "s",
                     listed(items));
}

/// With a decimal where the whole number would be that of the bound, and at least the next decimal above it.
std::string percent_beyond(double percent, double bound) {
  if (std::lround(percent) != std::lround(bound)) return fmt::format("{:.0f} %", percent);
  return fmt::format("{:.1f} %", std::max(percent, bound + 0.1));
}

std::string tempo_sentence(const TempoCourse& tempo, const TakeBounds& bounds) {
  const double drift = tempo.drift_percent;
  std::string text = fmt::format("Tempo: quarter note = {:.0f} at the beginning and {:.0f} at the end", tempo.start_bpm,
                                 tempo.end_bpm);
  if (tempo.drift_a_chorus && std::abs(drift) >= bounds.drift_percent)
    text += fmt::format(", {:.1f} {} each chorus", std::abs(*tempo.drift_a_chorus),
                        *tempo.drift_a_chorus > 0.0 ? "more" : "less");
  text += ".";
  if (std::abs(drift) >= bounds.drift_percent)
    text += drift > 0.0 ? " It rushes." : " It drags.";
  else if (std::abs(tempo.furthest_percent) <= bounds.tempo_band_percent && tempo.jumps.empty())
    text += " It holds.";
  if (std::abs(tempo.furthest_percent) > bounds.tempo_band_percent)
    text += fmt::format(" At the furthest it is {} {} than {:.0f}, its mean; up to {:.0f} % it would hold.",
                        percent_beyond(std::abs(tempo.furthest_percent), bounds.tempo_band_percent),
                        tempo.furthest_percent > 0.0 ? "faster" : "slower", tempo.mean_bpm, bounds.tempo_band_percent);
  for (const TempoJump& jump : tempo.jumps)
    text += fmt::format(" In bar {} it jumps from {:.0f} to {:.0f}.", jump.bar, jump.from_bpm, jump.to_bpm);
  return text;
}

std::string evenness_sentence(const Evenness& evenness, const TakeBounds& bounds) {
  const std::string_view word = evenness.spread_percent < bounds.even_percent      ? "Even"
                                : evenness.spread_percent <= bounds.uneven_percent ? "Fairly even"
                                                                                   : "Uneven";
  std::string text = fmt::format("{}: the notes stray {:.0f} ms from their places ({:.0f} % of a quarter note).", word,
                                 evenness.spread_ms, evenness.spread_percent);
  constexpr double nearly_even = 1.1;
  if (!evenness.swing_ratio) return text;
  if (*evenness.swing_ratio<nearly_even&& * evenness.swing_ratio> 1.0 / nearly_even)
    return text + " Eighths do not swing.";
  return text + fmt::format(" Eighths swing {:.2f} to 1, long to short; that is taken out.", *evenness.swing_ratio);
}

std::string work_sentence(const Assessment& assessment) {
  if (assessment.bars_to_work_on.empty()) return {};
  std::vector<TakeGroup> worst = assessment.bars_to_work_on;
  const auto mistakes = [](const TakeGroup& group) { return group.right.of - group.right.count; };
  std::ranges::stable_sort(worst, std::ranges::greater{}, mistakes);
  constexpr std::size_t most = 6;
  if (worst.size() > most) worst.resize(most);
  std::vector<std::string> items;
  for (const TakeGroup& bar : worst)
    items.push_back(fmt::format("{} ({} of {})", bar.name, mistakes(bar), bar.right.of));
  return fmt::format("Most mistakes: {}.", listed(items));
}

}  // namespace

std::string bars_in_words(const std::vector<BarRun>& runs) {
  std::vector<std::string> items;
  for (const BarRun& run : runs)
    items.push_back(run.first == run.last ? run.first : fmt::format("{} to {}", run.first, run.last));
  const bool one = runs.size() == 1 && runs.front().first == runs.front().last;
  return (one ? "bar " : "bars ") + listed(items);
}

MistakeWords in_words(const Mistake& mistake) {
  MistakeWords words;
  words.where = fmt::format("bar {}, beat {}", mistake.bar, beat_in_words(mistake.beat));
  words.wanted = mistake.wanted ? to_string(*mistake.wanted) : "-";
  words.played = mistake.played ? to_string(*mistake.played) : "-";
  return words;
}

std::vector<std::string> course_sentences(const AssessmentReport& report) {
  const Assessment& assessment = report.assessment;
  std::vector<std::string> sentences = {coverage_sentence(assessment.coverage), interruptions_sentence(assessment)};
  if (assessment.tempo) sentences.push_back(tempo_sentence(*assessment.tempo, report.bounds));
  if (assessment.evenness) sentences.push_back(evenness_sentence(*assessment.evenness, report.bounds));
  sentences.push_back(hesitations_sentence(assessment.hesitations));
  sentences.push_back(work_sentence(assessment));
  return sentences;
}

}  // namespace insideline::reports
