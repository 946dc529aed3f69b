#include "analyzer/takes/take_time.hpp"

#include <algorithm>
#include <cmath>
#include <span>
#include <utility>

namespace insideline {
namespace {

constexpr double seconds_a_minute = 60.0;
constexpr double in_percent = 100.0;

/// A note of the sheet that was struck, and when.
struct Moment {
  double quarters = 0.0;
  double seconds = 0.0;
  std::size_t attempt = 0;
  bool off_beat = false;  ///< half-way between two quarters
};
using Stretch = std::vector<Moment>;  ///< without a jump on the page

/// seconds = first + a_quarter * quarters
struct FittedTime {
  double first = 0.0;
  double a_quarter = 0.0;
};

/// The straight line that lies nearest to the moments, by least squares; none where all are at one place.
std::optional<FittedTime> fitted_line(std::span<const Moment> moments) {
  const auto count = static_cast<double>(moments.size());
  double mean_quarters = 0.0;
  double mean_seconds = 0.0;
  for (const Moment& moment : moments) {
    mean_quarters += moment.quarters / count;
    mean_seconds += moment.seconds / count;
  }
  double together = 0.0;
  double square = 0.0;
  for (const Moment& moment : moments) {
    together += (moment.quarters - mean_quarters) * (moment.seconds - mean_seconds);
    square += (moment.quarters - mean_quarters) * (moment.quarters - mean_quarters);
  }
  if (square <= 0.0) return std::nullopt;
  const double slope = together / square;
  return FittedTime{mean_seconds - slope * mean_quarters, slope};
}

/// The same for what was played, where time only goes on.
std::optional<FittedTime> fitted_time(std::span<const Moment> moments) {
  const auto line = fitted_line(moments);
  return line && line->a_quarter > 0.0 ? line : std::nullopt;
}

std::vector<Stretch> stretches_of(const LaidTake& laid, const TakeAlignment& alignment) {
  std::vector<std::size_t> jumps;
  for (const Restart& restart : alignment.restarts) jumps.push_back(restart.after);
  for (const Skip& skip : alignment.skips) jumps.push_back(skip.after);
  std::ranges::sort(jumps);
  std::vector<Stretch> stretches(1);
  auto jump = jumps.begin();
  for (std::size_t i = 0; i < alignment.attempts.size(); ++i) {
    for (; jump != jumps.end() && *jump == i; ++jump) stretches.emplace_back();
    const Attempt& attempt = alignment.attempts[i];
    if (attempt.struck != Struck::right && attempt.struck != Struck::octave_slip) continue;
    const Beats onset = laid.on_sheet(attempt.sheet).onset;
    const std::size_t played = laid.take_notes[*attempt.take];
    const double seconds = laid.take.performed.empty() ? to_double(laid.take.notes[played].onset)
                                                       : laid.take.performed[played].onset_seconds;
    if (!stretches.back().empty() && stretches.back().back().quarters >= to_double(onset)) continue;
    stretches.back().push_back({to_double(onset), seconds, i, remainder_within(onset, 1) == Beats(1, 2)});
  }
  return stretches;
}

/// A moment against the tempo of its neighbours.
struct Away {
  double seconds = 0.0;
  double a_quarter = 0.0;
  bool off_beat = false;
};

std::vector<Away> away_from_tempo(const std::vector<Stretch>& stretches) {
  constexpr std::size_t neighbours = 4;
  std::vector<Away> found;
  for (const Stretch& stretch : stretches) {
    if (stretch.size() < 3) continue;
    for (std::size_t i = 0; i < stretch.size(); ++i) {
      const std::size_t first = i > neighbours ? i - neighbours : 0;
      const std::size_t end = std::min(stretch.size(), i + neighbours + 1);
      const auto line = fitted_time(std::span(stretch).subspan(first, end - first));
      if (!line) continue;
      found.push_back({stretch[i].seconds - (line->first + line->a_quarter * stretch[i].quarters), line->a_quarter,
                       stretch[i].off_beat});
    }
  }
  return found;
}

double median_of(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::ranges::nth_element(values, middle);
  return *middle;
}

/// Moves the off-beats to where the player's own swing puts them, so that all that follows is about the rest. Gives how
/// much later than half-way that is, in quarters; none, and nothing is moved, where too few lie between others.
std::optional<double> take_swing_out(std::vector<Stretch>& stretches) {
  constexpr std::size_t fewest = 8;
  constexpr double latest = 0.35;  // later is no swing, but another rhythm
  double delay = 0.0;
  for (int round = 0; round < 5; ++round) {  // each round takes out most of what is left
    std::vector<double> on;
    std::vector<double> off;
    for (const Away& away : away_from_tempo(stretches))
      (away.off_beat ? off : on).push_back(away.seconds / away.a_quarter);
    if (on.size() < fewest || off.size() < fewest) return std::nullopt;
    const double moved = std::clamp(delay + median_of(off) - median_of(on), -latest, latest) - delay;
    delay += moved;
    for (Stretch& stretch : stretches)
      for (Moment& moment : stretch)
        if (moment.off_beat) moment.quarters += moved;
  }
  return delay;
}

/// The median of what a quarter lasts in the intervals around interval `i` (from moment i to i + 1), itself left out.
std::optional<double> quarter_around(const Stretch& stretch, std::size_t i) {
  constexpr std::size_t reach = 8;
  std::vector<double> quarters;
  const std::size_t begin = i > reach ? i - reach : 0;
  const std::size_t end = std::min(stretch.size() - 1, i + reach + 1);
  for (std::size_t k = begin; k < end; ++k)
    if (k != i)
      quarters.push_back((stretch[k + 1].seconds - stretch[k].seconds) /
                         (stretch[k + 1].quarters - stretch[k].quarters));
  if (quarters.empty()) return std::nullopt;
  return median_of(std::move(quarters));
}

/// How much later than written, in quarters, the note after `i` comes; none where there is no tempo to go by.
std::optional<double> lateness_after(const Stretch& stretch, std::size_t i) {
  const auto quarter = quarter_around(stretch, i);
  if (!quarter || *quarter <= 0.0) return std::nullopt;
  return (stretch[i + 1].seconds - stretch[i].seconds) / *quarter - (stretch[i + 1].quarters - stretch[i].quarters);
}

/// Cuts the stretches where a beat is lost or gained.
std::vector<TimeBreak> cut_at_breaks(std::vector<Stretch>& stretches, const TakeBounds& bounds) {
  std::vector<TimeBreak> breaks;
  std::vector<Stretch> pieces;
  for (const Stretch& stretch : stretches) {
    pieces.emplace_back();
    for (std::size_t i = 0; i < stretch.size(); ++i) {
      pieces.back().push_back(stretch[i]);
      if (i + 1 == stretch.size()) break;
      const auto away = lateness_after(stretch, i);
      const double written = stretch[i + 1].quarters - stretch[i].quarters;
      if (!away || std::abs(*away) < bounds.stop_quarters + bounds.stop_share * written) continue;
      breaks.push_back({stretch[i].attempt, stretch[i + 1].attempt, *away});
      pieces.emplace_back();
    }
  }
  stretches = std::move(pieces);
  return breaks;
}

/// Where a note comes clearly late or early, which is neither a lost beat nor a new tempo.
std::vector<TimeBreak> hesitations_in(const std::vector<Stretch>& stretches, const Evenness& evenness,
                                      const TakeBounds& bounds) {
  constexpr double clearly = 7.0;  // standard deviations of one note: uneven ones hardly ever lie so far from the next
  std::vector<TimeBreak> found;
  for (const Stretch& stretch : stretches)
    for (std::size_t i = 0; i + 1 < stretch.size(); ++i) {
      const auto away = lateness_after(stretch, i);
      const double written = stretch[i + 1].quarters - stretch[i].quarters;
      if (away && std::abs(*away) >= bounds.hesitation_quarters + bounds.stop_share * written &&
          std::abs(*away) * in_percent > clearly * evenness.spread_percent)
        found.push_back({stretch[i].attempt, stretch[i + 1].attempt, *away});
    }
  return found;
}

/// The moments from `first` on that lie in the next `quarters`.
std::span<const Moment> window_from(const Stretch& stretch, std::size_t first, double quarters, int fewest) {
  std::size_t end = first;
  while (end < stretch.size() &&
         (stretch[end].quarters < stretch[first].quarters + quarters || end - first < static_cast<std::size_t>(fewest)))
    ++end;
  return std::span(stretch).subspan(first, end - first);
}

/// The course of the tempo, window by window.
class TempoReader {
 public:
  TempoReader(const LaidTake& laid, const TakeAlignment& alignment, const TakeBounds& bounds)
      : laid_(laid),
        alignment_(alignment),
        bounds_(bounds),
        window_(bounds.window_bars * to_double(bar_length(laid.sheet.bars.front().meter))) {}

  [[nodiscard]] std::optional<TempoCourse> course(const std::vector<Stretch>& stretches, const Beats& chorus) const {
    TempoCourse course;
    std::vector<Moment> tempi;  // quarters played so far, and the tempo in place of the seconds
    double played = 0.0;
    double seconds = 0.0;
    for (const Stretch& stretch : stretches) {
      add_windows(stretch, played, course, tempi);
      find_jumps(stretch, course);
      if (stretch.size() < 2) continue;
      played += stretch.back().quarters - stretch.front().quarters;
      seconds += stretch.back().seconds - stretch.front().seconds;
    }
    if (course.tempi.empty() || seconds <= 0.0) return std::nullopt;
    course.mean_bpm = seconds_a_minute * played / seconds;
    course.start_bpm = course.tempi.front().bpm;
    course.end_bpm = course.tempi.back().bpm;
    for (const TempoAt& tempo : course.tempi) {
      const double away = in_percent * (tempo.bpm / course.mean_bpm - 1.0);
      if (std::abs(away) > std::abs(course.furthest_percent)) course.furthest_percent = away;
    }
    const double slope = tempi.size() > 2 ? slope_of(tempi) : (course.end_bpm - course.start_bpm) / played;
    course.drift_percent = in_percent * slope * played / course.mean_bpm;
    constexpr double nearly_one = 0.9;
    if (chorus > Beats(0) && played >= nearly_one * to_double(chorus) && tempi.size() > 2)
      course.drift_a_chorus = slope * to_double(chorus);
    return course;
  }

 private:
  void add_windows(const Stretch& stretch, double played, TempoCourse& course, std::vector<Moment>& tempi) const {
    std::size_t first = 0;
    while (first < stretch.size()) {
      auto window = window_from(stretch, first, window_, bounds_.fewest_in_window);
      const std::size_t left = stretch.size() - first - window.size();
      if (left < static_cast<std::size_t>(bounds_.fewest_in_window)) window = std::span(stretch).subspan(first);
      if (const auto line = fitted_time(window); line && window.size() >= fewest_at_all) {
        const double bpm = seconds_a_minute / line->a_quarter;
        course.tempi.push_back({bar_name(laid_, alignment_.attempts[window.front().attempt].sheet), bpm});
        const double middle = (window.front().quarters + window.back().quarters) / 2.0;
        tempi.push_back({played + middle - stretch.front().quarters, bpm, 0, false});
      }
      first += window.size();
    }
  }

  /// Where the two bars before a note and the two after it differ most.
  void find_jumps(const Stretch& stretch, TempoCourse& course) const {
    struct Change {
      std::size_t at = 0;
      TempoJump jump;
      double size = 0.0;
    };
    std::vector<Change> changes;
    std::size_t begin = 0;
    for (std::size_t i = 1; i + 1 < stretch.size(); ++i) {
      while (stretch[begin].quarters < stretch[i].quarters - window_) ++begin;
      const auto before = std::span(stretch).subspan(begin, i - begin);
      const auto after = window_from(stretch, i, window_, 0);
      if (!is_long_enough(before) || !is_long_enough(after)) continue;
      const auto old_time = fitted_time(before);
      const auto new_time = fitted_time(after);
      if (!old_time || !new_time || !is_straight(before, *old_time) || !is_straight(after, *new_time)) continue;
      const double change = std::log(old_time->a_quarter / new_time->a_quarter);
      const double size = std::abs(change);
      if (size < std::log1p(bounds_.jump_percent / in_percent) || !is_sharp(stretch, i, change)) continue;
      changes.push_back({i,
                         {bar_name(laid_, alignment_.attempts[stretch[i].attempt].sheet),
                          seconds_a_minute / old_time->a_quarter, seconds_a_minute / new_time->a_quarter},
                         size});
    }
    const auto is_largest_near = [&](const Change& change) {
      return std::ranges::none_of(changes, [&](const Change& other) {
        const bool near = std::abs(stretch[other.at].quarters - stretch[change.at].quarters) <= window_;
        return near && (other.size > change.size || (other.at < change.at && other.size >= change.size));
      });
    };
    for (const Change& change : changes)
      if (is_largest_near(change)) course.jumps.push_back(change.jump);
  }

  /// Whether most of the change lies between half of the time before moment `i` and half of the time after it.
  [[nodiscard]] bool is_sharp(const Stretch& stretch, std::size_t i, double change) const {
    std::size_t begin = i;
    while (begin > 0 && stretch[begin - 1].quarters >= stretch[i].quarters - window_ / 2.0) --begin;
    const auto before = fitted_time(std::span(stretch).subspan(begin, i - begin));
    const auto after = fitted_time(window_from(stretch, i, window_ / 2.0, 0));
    return before && after && std::log(before->a_quarter / after->a_quarter) / change >= bounds_.jump_sharpness;
  }

  /// Whether nobody hesitates in there: then the tempo is no tempo.
  [[nodiscard]] bool is_straight(std::span<const Moment> moments, const FittedTime& line) const {
    return std::ranges::none_of(moments, [&](const Moment& moment) {
      const double away = moment.seconds - (line.first + line.a_quarter * moment.quarters);
      return std::abs(away) > bounds_.hesitation_quarters / 2.0 * line.a_quarter;
    });
  }

  [[nodiscard]] bool is_long_enough(std::span<const Moment> moments) const {
    return moments.size() >= fewest_at_all && moments.back().quarters - moments.front().quarters >= window_ / 2.0;
  }

  static double slope_of(std::span<const Moment> tempi) {
    const auto line = fitted_line(tempi);
    return line ? line->a_quarter : 0.0;
  }

  static constexpr std::size_t fewest_at_all = 5;
  const LaidTake& laid_;
  const TakeAlignment& alignment_;
  const TakeBounds& bounds_;
  double window_;  ///< in quarters
};

std::optional<Evenness> evenness_of(const std::vector<Stretch>& stretches, const std::optional<double>& delay) {
  Evenness result;
  double squares = 0.0;
  double a_quarter = 0.0;
  for (const Away& away : away_from_tempo(stretches)) {
    squares += away.seconds * away.seconds;
    a_quarter += away.a_quarter;
    ++result.notes;
  }
  if (result.notes < 3) return std::nullopt;
  constexpr double ms = 1000.0;
  a_quarter /= result.notes;
  const double spread = std::sqrt(squares / result.notes);
  result.tempo_bpm = seconds_a_minute / a_quarter;
  result.spread_ms = ms * spread;
  result.spread_percent = in_percent * spread / a_quarter;
  if (delay) result.swing_ratio = (0.5 + *delay) / (0.5 - *delay);
  return result;
}

}  // namespace

TakeTime take_time(const LaidTake& laid, const TakeAlignment& alignment, const Beats& chorus,
                   const TakeBounds& bounds) {
  TakeTime time;
  if (laid.sheet.bars.empty()) return time;
  std::vector<Stretch> stretches = stretches_of(laid, alignment);
  if (laid.take.performed.empty()) {
    time.breaks = cut_at_breaks(stretches, bounds);
    return time;
  }
  const auto delay = take_swing_out(stretches);
  time.breaks = cut_at_breaks(stretches, bounds);
  time.tempo = TempoReader(laid, alignment, bounds).course(stretches, chorus);
  time.evenness = evenness_of(stretches, delay);
  if (time.evenness) time.hesitations = hesitations_in(stretches, *time.evenness, bounds);
  return time;
}

}  // namespace insideline
