#include "analyzer/labels/label_model.hpp"

#include "analyzer/labels/row_choice.hpp"
#include "analyzer/labels/score_table.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace insideline {
namespace {

constexpr std::size_t usual_readings = 3;
constexpr std::size_t usual_pairs = 9;
constexpr double equally_likely = 1e-9;

double weight_of(int score) {
  if (score == 0) return 1.0;
  return score == impossible_score ? 0.0 : std::exp(static_cast<double>(score) / per_log_unit);
}

constexpr std::size_t chords_heard_against = 3;
constexpr std::size_t labels = (static_cast<std::size_t>(Motive::no_chord) + 1) * chords_heard_against;

/// The same for all readings that a user sees as one label.
constexpr std::size_t label_number(const Reading& reading) {
  return static_cast<std::size_t>(label_motive(reading.motive)) * chords_heard_against +
         static_cast<std::size_t>(reading.against);
}

/// Sums of weights over paths, in the linear domain; each note's are scaled to add up to 1, which changes no ratio.
class PathSums {
 public:
  PathSums(const Chain& chain, const Lattice& lattice) : chain_(chain), lattice_(lattice) {
    weights_.reserve(lattice.readings.size());
    pair_starts_.reserve(lattice.size());
    pairs_.reserve(lattice.size() * usual_pairs);
    for (std::size_t i = 0; i < lattice.size(); ++i) {
      add_weights(i);
      add_pairs(i);
    }
  }

  /// The probability of each reading.
  std::vector<double> probabilities() {
    forward();
    std::vector<double> result = forward_;
    std::vector<double> after;  // of the note after, times its weight: what paths from here on add
    for (std::size_t i = lattice_.size(); i-- > 0;) {
      if (i + 1 < lattice_.size()) multiply_by_what_follows(i, after, result);
      scale(result, i);
      after.resize(lattice_.count(i));
      for (std::size_t k = 0; k < after.size(); ++k) {
        const double ahead = forward_[start(i) + k];
        after[k] = ahead > 0.0 ? result[start(i) + k] / ahead * weights_[start(i) + k] : 0.0;
      }
    }
    return result;
  }

 private:
  [[nodiscard]] std::size_t start(std::size_t i) const { return lattice_.starts[i]; }

  /// Scaled by the best reading's, so that nothing overflows.
  void add_weights(std::size_t i) {
    const std::size_t count = lattice_.count(i);
    if (count == 1) {
      weights_.push_back(1.0);
      return;
    }
    scores_.resize(count);
    for (std::size_t k = 0; k < count; ++k) scores_[k] = score_in(lattice_, chain_, i, k);
    const int best = std::ranges::max(scores_);
    for (const int score : scores_) weights_.push_back(score == impossible_score ? 0.0 : weight_of(score - best));
  }

  /// The weights of all pairs of readings of notes i - 1 and i, one row for each reading of note i.
  void add_pairs(std::size_t i) {
    pair_starts_.push_back(pairs_.size());
    if (i == 0) return;
    const bool only_one_way = lattice_.count(i) == 1 && lattice_.count(i - 1) == 1;
    if (only_one_way) {
      pairs_.push_back(1.0);
      return;
    }
    for (const Reading& to : lattice_.at(i)) {
      for (const Reading& from : lattice_.at(i - 1)) {
        const bool follows = may_follow(from, to, chain_[i].same_before);
        pairs_.push_back(follows ? weight_of(transition_score(from, to, chain_, i)) : 0.0);
      }
    }
  }

  void scale(std::vector<double>& values, std::size_t i) const {
    double sum = 0.0;
    for (std::size_t k = start(i); k < start(i + 1); ++k) sum += values[k];
    for (std::size_t k = start(i); k < start(i + 1); ++k) values[k] /= sum;
  }

  void forward() {
    forward_ = weights_;
    scale(forward_, 0);
    for (std::size_t i = 1; i < lattice_.size(); ++i) {
      const double* pair = pairs_.data() + pair_starts_[i];
      for (std::size_t to = start(i); to < start(i + 1); ++to) {
        double sum = 0.0;
        for (std::size_t from = start(i - 1); from < start(i); ++from) sum += forward_[from] * *pair++;
        forward_[to] *= sum;
      }
      scale(forward_, i);
    }
  }

  void multiply_by_what_follows(std::size_t i, const std::vector<double>& after, std::vector<double>& result) const {
    const std::size_t count = lattice_.count(i);
    const double* pair = pairs_.data() + pair_starts_[i + 1];
    for (std::size_t from = 0; from < count; ++from) {
      double sum = 0.0;
      for (std::size_t to = 0; to < after.size(); ++to) sum += after[to] * pair[to * count + from];
      result[start(i) + from] *= sum;
    }
  }

  const Chain& chain_;
  const Lattice& lattice_;
  std::vector<int> scores_;
  std::vector<double> weights_;  // parallel to the readings
  std::vector<double> pairs_;
  std::vector<std::size_t> pair_starts_;
  std::vector<double> forward_;
};

}  // namespace

bool same_label(const Reading& a, const Reading& b) { return label_number(a) == label_number(b); }

Lattice lattice_of(const Chain& chain, Hearing hearing) {
  Lattice lattice;
  lattice.readings.reserve(chain.size() * usual_readings);
  lattice.starts.reserve(chain.size() + 1);
  for (std::size_t i = 0; i < chain.size(); ++i) {
    lattice.starts.push_back(lattice.readings.size());
    add_possible_readings(lattice.readings, chain, i, hearing);
  }
  lattice.starts.push_back(lattice.readings.size());
  return lattice;
}

int score_in(const Lattice& lattice, const Chain& chain, std::size_t note, std::size_t k) {
  const Reading& reading = lattice.at(note)[k];
  const bool cut_before = note == 0 && reading.part > 0;
  const bool cut_after = note + 1 == chain.size() && needs_target(reading);
  return cut_before || cut_after ? impossible_score : reading_score(reading, chain, note);
}

WeighedReadings WeighedChain::operator[](std::size_t note) const {
  const auto readings = lattice.at(note);
  const std::span<const double> weighed(probabilities.data() + lattice.starts[note], readings.size());
  WeighedReadings result{.readings = readings, .probabilities = weighed};
  if (readings.size() == 1) return result;
  std::array<double, labels> by_label{};
  std::array<double, static_cast<std::size_t>(Role::no_chord) + 1> by_role{};
  for (std::size_t k = 0; k < readings.size(); ++k) {
    by_label.at(label_number(readings[k])) += weighed[k];
    by_role.at(static_cast<std::size_t>(role_of(readings[k]))) += weighed[k];
  }
  for (std::size_t k = 1; k < readings.size(); ++k) {
    const double here = by_label.at(label_number(readings[k]));
    const double best = by_label.at(label_number(readings[result.best]));
    const bool likelier_reading = here > best - equally_likely && weighed[k] > weighed[result.best] + equally_likely &&
                                  same_label(readings[k], readings[result.best]);
    if (here > best + equally_likely || likelier_reading) result.best = k;
  }
  result.label_probability = by_label.at(label_number(readings[result.best]));
  result.role_probability = by_role.at(static_cast<std::size_t>(role_of(readings[result.best])));
  return result;
}

WeighedChain solve_chain(const Chain& chain, Hearing hearing) {
  WeighedChain solved;
  solved.lattice = lattice_of(chain, hearing);
  solved.probabilities = PathSums(chain, solved.lattice).probabilities();
  return solved;
}

}  // namespace insideline
