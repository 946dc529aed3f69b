#include "analyzer/measures/time_feel.hpp"

#include "analyzer/metre.hpp"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>

namespace insideline {
namespace {

/// A note as written and as played, in beats that are felt.
struct Deviation {
  double beats = 0.0;
  double milliseconds = 0.0;
};

Lateness summed_up(const std::vector<Deviation>& deviations) {
  constexpr double percent = 100.0;
  Lateness lateness;
  lateness.notes = static_cast<int>(deviations.size());
  if (deviations.empty()) return lateness;
  const auto count = static_cast<double>(deviations.size());
  for (const Deviation& deviation : deviations) {
    lateness.mean_ms += deviation.milliseconds / count;
    lateness.mean_percent += percent * deviation.beats / count;
  }
  double square_ms = 0.0;
  double square_percent = 0.0;
  for (const Deviation& deviation : deviations) {
    square_ms += std::pow(deviation.milliseconds - lateness.mean_ms, 2);
    square_percent += std::pow(percent * deviation.beats - lateness.mean_percent, 2);
  }
  const double freedom = std::max(1.0, count - 1.0);
  lateness.spread_ms = std::sqrt(square_ms / freedom);
  lateness.spread_percent = std::sqrt(square_percent / freedom);
  return lateness;
}

/// Reads a performance against its page. Invariant: `solo_` is performed and outlives this.
class PerformanceReader {
 public:
  explicit PerformanceReader(const Solo& solo) : solo_(solo) {
    std::size_t bar = 0;
    for (std::size_t i = 0; i < solo.notes.size(); ++i) {
      if (solo.notes[i].grace) continue;
      while (bar + 1 < solo.bars.size() && solo.bars[bar + 1].onset <= solo.notes[i].onset) ++bar;
      struck_.push_back({i, bar});
    }
  }

  [[nodiscard]] std::optional<Swing> swing() const {
    std::vector<double> ratios;
    for (std::size_t k = 0; k + 2 < struck_.size(); ++k)
      if (is_pair(k)) {
        const double beat = performed(k).onset_seconds;
        const double off_beat = performed(k + 1).onset_seconds;
        const double next = performed(k + 2).onset_seconds;
        if (beat < off_beat && off_beat < next) ratios.push_back((off_beat - beat) / (next - off_beat));
      }
    if (ratios.empty()) return std::nullopt;
    std::ranges::sort(ratios);
    const auto at = [&](double share) {
      const double place = share * static_cast<double>(ratios.size() - 1);
      const auto below = static_cast<std::size_t>(place);
      const std::size_t above = std::min(below + 1, ratios.size() - 1);
      return ratios[below] + (place - static_cast<double>(below)) * (ratios[above] - ratios[below]);
    };
    return Swing{static_cast<int>(ratios.size()), at(0.5), at(0.25), at(0.75)};
  }

  [[nodiscard]] std::map<int, std::vector<Deviation>> on_beat() const {
    std::map<int, std::vector<Deviation>> by_beat;
    for (const Struck& struck : struck_) {
      const Bar& bar = solo_.bars[struck.bar];
      const Beats beat = beat_in_bar(bar, solo_.notes[struck.note].onset);
      if (beat.denominator() == 1) by_beat[static_cast<int>(beat.numerator())].push_back(deviation(struck, 0.0));
    }
    return by_beat;
  }

  /// `place` is where this player's off-beats fall, in beats.
  [[nodiscard]] std::vector<Deviation> off_beat(double place) const {
    constexpr double written = 0.5;
    std::vector<Deviation> deviations;
    for (const Struck& struck : struck_)
      if (is_off_beat(struck)) deviations.push_back(deviation(struck, place - written));
    return deviations;
  }

 private:
  struct Struck {
    std::size_t note = 0;
    std::size_t bar = 0;
  };

  [[nodiscard]] const PerformedNote& performed(std::size_t k) const { return solo_.performed[struck_[k].note]; }

  [[nodiscard]] Beats within_beat(const Struck& struck) const {
    return remainder_within(beat_in_bar(solo_.bars[struck.bar], solo_.notes[struck.note].onset), 1);
  }

  /// Only meters that divide their beats in two have off-beat eighths.
  [[nodiscard]] bool is_off_beat(const Struck& struck) const {
    const Meter& meter = solo_.bars[struck.bar].meter;
    return beat_length(meter) == Beats(1) && felt_beat(meter) == Beats(1) && within_beat(struck) == Beats(1, 2);
  }

  /// An eighth on a beat, one off the beat, and a note on the next beat, with nothing between.
  [[nodiscard]] bool is_pair(std::size_t k) const {
    const Beats onset = solo_.notes[struck_[k].note].onset;
    return is_off_beat(struck_[k + 1]) && solo_.notes[struck_[k + 1].note].onset == onset + Beats(1, 2) &&
           solo_.notes[struck_[k + 2].note].onset == onset + Beats(1);
  }

  [[nodiscard]] Deviation deviation(const Struck& struck, double expected_beats) const {
    constexpr double milliseconds = 1000.0;
    const PerformedNote& played = solo_.performed[struck.note];
    const double beat = to_double(felt_beat(solo_.bars[struck.bar].meter));
    const double quarters = played.onset_beats - to_double(solo_.notes[struck.note].onset) - expected_beats * beat;
    return {quarters / beat, quarters * played.quarter_seconds * milliseconds};
  }

  const Solo& solo_;
  std::vector<Struck> struck_;
};

}  // namespace

std::optional<TimeFeel> time_feel(const Solo& solo) {
  if (solo.performed.empty()) return std::nullopt;
  assert(solo.performed.size() == solo.notes.size() && "every note was performed");
  const PerformanceReader reader(solo);
  const auto by_beat = reader.on_beat();
  if (by_beat.empty()) return std::nullopt;
  TimeFeel feel;
  feel.swing = reader.swing();
  std::vector<Deviation> all;
  for (const auto& [beat, deviations] : by_beat) {
    feel.by_beat.push_back({beat, summed_up(deviations)});
    all.insert(all.end(), deviations.begin(), deviations.end());
  }
  feel.on_beat = summed_up(all);
  if (feel.swing) {
    const double place = feel.swing->ratio / (1.0 + feel.swing->ratio);
    const auto off_beats = reader.off_beat(place);
    if (!off_beats.empty()) feel.off_beat = summed_up(off_beats);
  }
  return feel;
}

}  // namespace insideline
