#include "analyzer/labels/label_model.hpp"

#include "analyzer/labels/joint.hpp"
#include "analyzer/labels/row_choice.hpp"
#include "analyzer/labels/score_table.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace insideline {
namespace {

constexpr std::size_t usual_readings = 3;
constexpr std::size_t usual_pairs = 9;
constexpr double equally_likely = 1e-9;
constexpr double more_than_half = 0.5 + equally_likely;  // no other label comes near

double weight_of(int score) {
  if (score == 0) return 1.0;
  return score == impossible_score ? 0.0 : std::exp(static_cast<double>(score) / per_log_unit);
}

constexpr std::size_t chords_heard_against = 3;

constexpr std::size_t labels = motive_count * chords_heard_against;

template <typename Told>
constexpr auto by_motive(Told told) {
  std::array<decltype(told(Motive::no_chord)), motive_count> all{};
  for (std::size_t motive = 0; motive < motive_count; ++motive) all[motive] = told(static_cast<Motive>(motive));
  return all;
}

constexpr auto label_by_motive = by_motive(label_motive);
constexpr auto role_by_motive = by_motive([](Motive motive) { return role_of({.motive = motive}); });

/// The same for all readings that a user sees as one label.
constexpr std::size_t label_number(const Reading& reading) {
  return static_cast<std::size_t>(label_by_motive[static_cast<std::size_t>(reading.motive)]) * chords_heard_against +
         static_cast<std::size_t>(reading.against);
}

/// Sums of weights over paths, in the linear domain; each note's are scaled to add up to 1, which changes no ratio.
/// A note that is heard in one way only passes nothing on: what is before and after it do not meet.
class PathSums {
 public:
  PathSums(const Chain& chain, const Lattice& lattice)
      : chain_(chain), lattice_(lattice), weights_(lattice.readings.size()), sums_(lattice.readings.size()) {
    pairs_.reserve(lattice.size() * usual_pairs);
    pair_starts_.reserve(lattice.size());
  }

  /// The probability of each reading.
  std::vector<double> probabilities() {
    for (std::size_t i = 0; i < lattice_.size(); ++i) {
      weigh(i);
      weigh_pairs(i);
      sum_up_to(i);
    }
    for (std::size_t i = lattice_.size(); i-- > 0;) sum_from(i);
    return std::move(sums_);
  }

 private:
  [[nodiscard]] bool one_way(std::size_t i) const { return lattice_.count(i) == 1; }

  /// Scaled by the best reading's, so that nothing overflows.
  void weigh(std::size_t i) {
    const auto weights = at(weights_, i);
    if (one_way(i)) {
      weights.front() = 1.0;
      return;
    }
    scores_.resize(weights.size());
    for (std::size_t k = 0; k < scores_.size(); ++k) scores_[k] = score_in(lattice_, chain_, i, k);
    const int best = std::ranges::max(scores_);
    for (std::size_t k = 0; k < scores_.size(); ++k)
      weights[k] = scores_[k] == impossible_score ? 0.0 : weight_of(scores_[k] - best);
  }

  /// The weights of all pairs of readings of notes i - 1 and i, one row for each reading of note i.
  void weigh_pairs(std::size_t i) {
    pair_starts_.push_back(pairs_.size());
    if (i == 0 || (one_way(i) && one_way(i - 1))) return;
    pairs_.resize(pairs_.size() + lattice_.count(i) * lattice_.count(i - 1));
    Joint(chain_, i).weigh(lattice_.at(i - 1), lattice_.at(i), pairs_.data() + pair_starts_.back());
  }

  /// The paths that end in each reading of note i.
  void sum_up_to(std::size_t i) {
    const auto here = at(sums_, i);
    if (one_way(i)) {
      here.front() = 1.0;
      return;
    }
    const auto weights = at(weights_, i);
    const auto before = i > 0 ? at(sums_, i - 1) : std::span<double>();
    const double* pair = pairs_.data() + pair_starts_[i];
    double all = 0.0;
    for (std::size_t k = 0; k < here.size(); ++k) {
      double paths = i > 0 ? 0.0 : 1.0;
      for (const double so_far : before) paths += so_far * *pair++;
      here[k] = weights[k] * paths;
      all += here[k];
    }
    for (double& sum : here) sum /= all;
  }

  /// Adds the paths that go on from each reading of note i; its weight becomes what it adds to those from before.
  void sum_from(std::size_t i) {
    if (one_way(i) || i + 1 == lattice_.size()) return;
    const auto here = at(sums_, i);
    const auto weights = at(weights_, i);
    double all = 0.0;
    for (std::size_t k = 0; k < here.size(); ++k) {
      const double after = sum_after(i, k, here.size());
      weights[k] = here[k] > 0.0 ? weights[k] * after : 0.0;
      here[k] *= after;
      all += here[k];
    }
    for (double& sum : here) sum /= all;
    if (i > 0 && !one_way(i - 1))
      for (double& weight : weights) weight /= all;
  }

  [[nodiscard]] double sum_after(std::size_t i, std::size_t from, std::size_t count) {
    const double* pair = pairs_.data() + pair_starts_[i + 1] + from;
    double sum = 0.0;
    for (const double weight : at(weights_, i + 1)) {
      sum += weight * *pair;
      pair += count;
    }
    return sum;
  }

  [[nodiscard]] std::span<double> at(std::vector<double>& values, std::size_t i) const {
    return {values.data() + lattice_.starts[i], lattice_.count(i)};
  }

  const Chain& chain_;
  const Lattice& lattice_;
  std::vector<int> scores_;
  std::vector<double> weights_;  // parallel to the readings
  std::vector<double> sums_;     // parallel to the readings
  std::vector<double> pairs_;
  std::vector<std::size_t> pair_starts_;
};

/// The likeliest reading of the label that all its readings together make the likeliest.
std::size_t best_of_labels(std::span<const Reading> readings, std::span<const double> weighed) {
  std::array<double, labels> by_label{};
  for (std::size_t k = 0; k < readings.size(); ++k) by_label.at(label_number(readings[k])) += weighed[k];
  std::size_t best = 0;
  for (std::size_t k = 1; k < readings.size(); ++k) {
    const double here = by_label.at(label_number(readings[k]));
    const double most = by_label.at(label_number(readings[best]));
    const bool likelier_reading = here > most - equally_likely && weighed[k] > weighed[best] + equally_likely &&
                                  same_label(readings[k], readings[best]);
    if (here > most + equally_likely || likelier_reading) best = k;
  }
  return best;
}

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
  const auto likeliest = static_cast<std::size_t>(std::ranges::max_element(weighed) - weighed.begin());
  result.best = weighed[likeliest] > more_than_half ? likeliest : best_of_labels(readings, weighed);
  const Reading& best = readings[result.best];
  result.label_probability = 0.0;
  result.role_probability = 0.0;
  const std::size_t label = label_number(best);
  const Role role = role_by_motive[static_cast<std::size_t>(best.motive)];
  for (std::size_t k = 0; k < readings.size(); ++k) {  // the same or not: no processor can foresee it
    const bool same_role = role_by_motive[static_cast<std::size_t>(readings[k].motive)] == role;
    result.label_probability += weighed[k] * static_cast<double>(label_number(readings[k]) == label);
    result.role_probability += weighed[k] * static_cast<double>(same_role);
  }
  return result;
}

WeighedChain solve_chain(const Chain& chain, Hearing hearing) {
  return solve_lattice(chain, lattice_of(chain, hearing));
}

WeighedChain solve_lattice(const Chain& chain, Lattice lattice) {
  WeighedChain solved;
  solved.lattice = std::move(lattice);
  solved.probabilities = PathSums(chain, solved.lattice).probabilities();
  return solved;
}

}  // namespace insideline
