#include "analyzer/alignment_doctor.hpp"

#include "analyzer/alignment_fit.hpp"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstdlib>
#include <span>
#include <utility>
#include <vector>

namespace insideline {
namespace {

constexpr std::size_t fewest_notes = 30;
constexpr std::size_t fewest_bars = 4;
constexpr int furthest_bars = 32;  // tried either way
constexpr int semitones_in_a_round = 12;

// A place is better where two things hold. It stands out from what the same line gets elsewhere over the same chords,
// at a level corrected for the number of places tried (Bonferroni); and the place in use lies behind it by so many
// standard errors. Some must lead by more: a blues scale fits other keys nearly as well as its own, and chord tones
// that come early or late lie better a beat off. What leads by more than it must need stand out less. The levels were
// set so that a line without a tie to its chart raises an alarm less than once in fifty.
constexpr double level = 0.02;
constexpr double level_with_a_clear_lead = 0.05;
constexpr double clear_lead = 0.6;  // beyond what is asked
constexpr double lead_of_a_place = 1.7;
constexpr double lead_of_a_key = 2.1;
constexpr double lead_of_a_form = 2.0;
constexpr double lead_of_beats = 2.4;

using Sums = LineOverChart::Sums;

double upper_tail(double deviations) { return 0.5 * std::erfc(deviations / std::sqrt(2.0)); }

/// Student's t as a normal deviate (D. L. Wallace, Ann. Math. Statist. 30, 1959).
double as_normal(double t, double freedom) {
  const double size = std::sqrt(freedom * std::log1p(t * t / freedom)) * (8.0 * freedom + 1.0) / (8.0 * freedom + 3.0);
  return std::copysign(size, t);
}

/// A mean over bars in its own standard errors, as a normal deviate; 0 where it has none.
class Deviation {
 public:
  void add(double value) {
    ++count_;
    sum_ += value;
    squares_ += value * value;
  }
  [[nodiscard]] std::size_t count() const { return static_cast<std::size_t>(count_); }
  [[nodiscard]] double value() const {
    if (count_ < 2.0) return 0.0;
    const double variance = (squares_ - sum_ * sum_ / count_) / (count_ - 1.0);
    constexpr double none = 1e-9;
    // Bars that all lead by the same are as sure as bars can be.
    const double floor = std::max(variance, 1e-3 * squares_ / count_);
    return floor < none ? 0.0 : as_normal(sum_ / std::sqrt(count_ * floor), count_ - 1.0);
  }

 private:
  double count_ = 0.0;
  double sum_ = 0.0;
  double squares_ = 0.0;
};

std::int64_t total(const Sums& sums) {
  std::int64_t all = 0;
  for (const std::int64_t sum : sums) all += sum;
  return all;
}

struct Candidate {
  ChartPlace place;
  std::optional<LineOverChart::LikelySlip> slip;
  Sums fit;
};

class Doctor {
 public:
  explicit Doctor(const LineOverChart& line)
      : line_(line), here_(line.fit({}, FitAgainst::the_line)), here_in_key_(line.fit({}, FitAgainst::nothing)) {
    // Turns by whole bars keep each note's place in its bar, transpositions its chord.
    try_bars();
    elsewhere_ = mean_of(here_, candidates_);
    try_beats();
    try_forms();
    const std::size_t before = candidates_.size();
    for (int semitones = 1; semitones < semitones_in_a_round; ++semitones) try_place({.semitones = semitones});
    in_other_keys_ = mean_of(here_in_key_, std::span(candidates_).subspan(before));
  }

  [[nodiscard]] std::optional<AlignmentAdvice> advice(const Alignment& alignment) const {
    std::optional<double> by_chance;
    for (const Candidate& candidate : candidates_)
      if (is_clearly_better(candidate)) by_chance = std::min(by_chance.value_or(1.0), chance_of(candidate));
    if (!by_chance) return std::nullopt;
    // Something is wrong; it is what explains the line best.
    const auto& best = *std::ranges::max_element(candidates_, {}, [&](const Candidate& candidate) {
      return total(candidate.fit) - total(here(candidate)) - handicap(candidate);
    });
    AlignmentAdvice advice = in_words(best, alignment);
    advice.places = static_cast<int>(candidates_.size());
    advice.by_chance = *by_chance;
    const bool enough = std::cmp_greater_equal(std::min(advice.here.of, advice.there.of), fewest_notes);
    if (!enough || ratio(advice.there) <= ratio(advice.here)) return std::nullopt;
    return advice;
  }

 private:
  void try_place(const ChartPlace& place) {
    // What tells a key is that the whole line fits; what tells a bar is that it takes notice of where the chords
    // change.
    const FitAgainst against = place.semitones != 0 ? FitAgainst::nothing : FitAgainst::the_line;
    candidates_.push_back({.place = place, .slip = {}, .fit = line_.fit(place, against)});
  }

  void try_bars() {
    const int form = line_.form_bars();
    for (int size = 1; size <= std::min(form / 2, furthest_bars); ++size) {
      try_place({.cells = size * line_.bar_cells()});
      if (2 * size != form) try_place({.cells = -size * line_.bar_cells()});
    }
  }

  void try_beats() {
    if (line_.form_bars() < 2) return;
    for (int cells = 2; cells < line_.bar_cells(); cells += 2) {
      try_place({.cells = cells});
      try_place({.cells = -cells});
    }
  }

  void try_forms() {
    constexpr int shortest_form = 4;
    if (line_.form_bars() < shortest_form) return;
    for (const int by : {1, -1}) {
      const LineOverChart::LikelySlip slip = line_.best_slip(by);
      candidates_.push_back({.place = {}, .slip = slip, .fit = line_.fit(slip.slip)});
    }
  }

  /// The place in use, measured as the candidate is.
  [[nodiscard]] const Sums& here(const Candidate& candidate) const {
    return candidate.place.semitones != 0 ? here_in_key_ : here_;
  }

  /// Of the place in use and of others, bar after bar.
  static std::vector<double> mean_of(const Sums& here, std::span<const Candidate> others) {
    std::vector<double> mean(here.begin(), here.end());
    for (const Candidate& other : others)
      for (std::size_t i = 0; i < mean.size(); ++i) mean[i] += static_cast<double>(other.fit[i]);
    for (double& value : mean) value /= static_cast<double>(others.size() + 1);
    return mean;
  }

  /// How often a line without a tie to these chords would stand out so at one of the places. A slip inside the form is
  /// judged by the bars that it moves, and could be in any bar.
  [[nodiscard]] double chance_of(const Candidate& candidate) const {
    const std::vector<double>& usual = candidate.place.semitones != 0 ? in_other_keys_ : elsewhere_;
    const double deviation = lead_over(usual, candidate);
    const std::size_t in_any_bar = candidate.slip ? static_cast<std::size_t>(line_.form_bars()) : 0;
    return std::min(1.0, static_cast<double>(candidates_.size() + in_any_bar) * upper_tail(deviation));
  }

  [[nodiscard]] bool is_clearly_better(const Candidate& candidate) const {
    const Sums& sums = here(candidate);
    if (total(candidate.fit) <= total(sums)) return false;
    const double lead = lead_over(std::vector<double>(sums.begin(), sums.end()), candidate) - asked_lead(candidate);
    if (lead < 0.0) return false;
    return chance_of(candidate) <= (lead < clear_lead ? level : level_with_a_clear_lead);
  }

  [[nodiscard]] double asked_lead(const Candidate& candidate) const {
    if (candidate.slip) return lead_of_a_form;
    if (candidate.place.semitones != 0) return lead_of_a_key;
    return is_odd(candidate.place) ? lead_of_beats : lead_of_a_place;
  }

  /// In its own standard errors. Choruses over one form repeat each other, so that a form played several times is no
  /// more bars than it has; a short one has too few to tell.
  [[nodiscard]] double lead_over(const std::vector<double>& other, const Candidate& candidate) const {
    constexpr int shortest_to_tell = 12;
    Deviation by_bar;
    std::vector<double> over_form(static_cast<std::size_t>(line_.form_bars()));
    std::vector<char> has_notes(over_form.size());
    for (std::size_t i = 0; i < other.size(); ++i) {
      if (candidate.slip && candidate.fit[i] == here_[i]) continue;
      const double lead = static_cast<double>(candidate.fit[i]) - other[i];
      by_bar.add(lead);
      over_form[line_.form_bar_of(i)] += lead;
      has_notes[line_.form_bar_of(i)] = 1;
    }
    if (by_bar.count() < fewest_bars) return 0.0;
    if (candidate.slip || line_.form_bars() < shortest_to_tell) return by_bar.value();
    Deviation by_form_bar;
    for (std::size_t bar = 0; bar < over_form.size(); ++bar)
      if (has_notes[bar] != 0) by_form_bar.add(over_form[bar]);
    return std::min(by_bar.value(), by_form_bar.value());
  }

  /// Neither whole bars nor half a bar, which a pickup easily is.
  [[nodiscard]] bool is_odd(const ChartPlace& place) const { return 2 * place.cells % line_.bar_cells() != 0; }

  /// What an explanation must be ahead of a simpler one: a slip inside the form could be in any bar, and few charts lie
  /// beats off. Our choice, no source.
  [[nodiscard]] std::int64_t handicap(const Candidate& candidate) const {
    constexpr std::int64_t of_a_form = std::int64_t{5} * LineOverChart::chord_tone_points;
    constexpr std::int64_t of_beats = std::int64_t{3} * LineOverChart::chord_tone_points;
    if (candidate.slip) return of_a_form;
    return is_odd(candidate.place) ? of_beats : 0;
  }

  [[nodiscard]] AlignmentAdvice in_words(const Candidate& candidate, const Alignment& alignment) const {
    AlignmentAdvice advice;
    advice.here = line_.chord_tones(ChartPlace{});
    advice.there = candidate.slip ? line_.chord_tones(candidate.slip->slip) : line_.chord_tones(candidate.place);
    const ChartPlace& place = candidate.place;
    if (candidate.slip) {
      const LineOverChart::LikelySlip& slip = *candidate.slip;
      advice.form = {
          .bar = slip.slip.at + 1, .first = slip.first + 1, .last = slip.last + 1, .missing = slip.slip.by > 0};
    } else if (place.semitones != 0) {
      const bool down = place.semitones > semitones_in_a_round / 2;
      advice.semitones = down ? place.semitones - semitones_in_a_round : place.semitones;
    } else if (place.cells % line_.bar_cells() != 0) {
      advice.beats_later = Beats(place.cells) * line_.cell();
    } else {
      advice.start_bar = nearest_to_bar_one(alignment.start_bar + place.cells / line_.bar_cells());
    }
    return advice;
  }

  /// The chart goes round, so many bars mean the same.
  [[nodiscard]] int nearest_to_bar_one(int start_bar) const {
    const int form = line_.form_bars();
    const int after = ((start_bar - 1) % form + form) % form;
    return 1 + (2 * after > form ? after - form : after);
  }

  const LineOverChart& line_;
  Sums here_;
  Sums here_in_key_;
  std::vector<Candidate> candidates_;
  std::vector<double> elsewhere_;
  std::vector<double> in_other_keys_;
};

}  // namespace

bool has_other_places(const Changes& changes, const Solo& solo) {
  return changes.extent == Extent::looping && !changes.bars.empty() && !solo.bars.empty() &&
         std::ranges::all_of(changes.bars,
                             [&](const FormBar& bar) { return bar.length == changes.bars.front().length; });
}

std::optional<AlignmentAdvice> better_alignment(const Changes& changes, const Solo& solo, const Alignment& alignment) {
  if (!has_other_places(changes, solo)) return std::nullopt;
  const LineOverChart line(changes, solo, first_bar_onset(solo, alignment));
  if (line.notes() < fewest_notes || line.groups() < fewest_bars) return std::nullopt;
  return Doctor(line).advice(alignment);
}

}  // namespace insideline
