#include "analyzer/labels/label_model.hpp"

#include "analyzer/labels/score_table.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include <Eigen/Core>

namespace insideline {
namespace {

constexpr int most_readings = 24;  // possible_readings gives fewer for any note
constexpr double impossible = -std::numeric_limits<double>::infinity();

// Bounded, so that no note costs an allocation; what is kept for a whole chain lies side by side.
using Scores = Eigen::Array<double, Eigen::Dynamic, 1, Eigen::ColMajor, most_readings, 1>;
using ScoreMap = Eigen::Map<const Eigen::ArrayXd>;
using ScoreMatrix = Eigen::Map<const Eigen::ArrayXXd>;

template <typename Expression>
double log_of_sum(const Eigen::ArrayBase<Expression>& expression) {
  if (expression.size() == 1) return expression(0);
  const Scores scores = expression;
  const double largest = scores.maxCoeff();
  if (largest == impossible) return impossible;
  return largest + std::log((scores - largest).exp().sum());
}

class Lattice {
 public:
  Lattice(const Chain& chain, Hearing hearing) : chain_(chain), notes_(chain.size()) {
    starts_.reserve(chain.size());
    between_starts_.reserve(chain.size());
    for (std::size_t i = 0; i < chain.size(); ++i) {
      notes_[i].readings = possible_readings(chain, i, hearing);
      add_scores(i);
      add_transitions(i);
    }
  }

  std::vector<WeighedReadings> solve() {
    find_probabilities();
    find_best_path();
    prefer_likely_roles();
    return std::move(notes_);
  }

 private:
  [[nodiscard]] Eigen::Index count(std::size_t i) const { return static_cast<Eigen::Index>(notes_[i].readings.size()); }

  /// A figure must be complete: none starts in its middle, none ends without its target.
  void add_scores(std::size_t i) {
    starts_.push_back(scores_.size());
    for (const Reading& reading : notes_[i].readings) {
      const bool cut_before = i == 0 && reading.part > 0;
      const bool cut_after = i + 1 == chain_.size() && needs_target(reading);
      scores_.push_back(cut_before || cut_after ? impossible : reading_score(reading, chain_, i));
    }
  }

  void add_transitions(std::size_t i) {
    between_starts_.push_back(between_.size());
    if (i == 0) return;
    for (const Reading& to : notes_[i].readings)
      for (const Reading& from : notes_[i - 1].readings)
        between_.push_back(may_follow(from, to, chain_[i].same_before) ? transition_score(from, to, chain_, i)
                                                                       : impossible);
  }

  [[nodiscard]] ScoreMap scores(std::size_t i) const { return {scores_.data() + starts_[i], count(i)}; }

  /// Row: reading of note i - 1; column: reading of note i.
  [[nodiscard]] ScoreMatrix between(std::size_t i) const {
    return {between_.data() + between_starts_[i], count(i - 1), count(i)};
  }

  /// The best path as a whole may hear a single note in a role that is less likely than another
  /// one over all paths. Such a note takes the likeliest reading of its likeliest role instead, so
  /// that no note is labelled against the odds. On played lines this hardly ever happens.
  void prefer_likely_roles() {
    for (std::size_t i = 0; i < chain_.size(); ++i) {
      WeighedReadings& note = notes_[i];
      const Role likeliest = likeliest_role(i);
      if (role_of(note.readings[note.best]) == likeliest) continue;
      double highest = -1.0;
      for (std::size_t k = 0; k < note.readings.size(); ++k) {
        if (role_of(note.readings[k]) != likeliest || note.probabilities[k] <= highest) continue;
        highest = note.probabilities[k];
        note.best = k;
      }
    }
  }

  [[nodiscard]] Role likeliest_role(std::size_t i) const {
    std::array<double, static_cast<std::size_t>(Role::no_chord) + 1> sums{};
    for (std::size_t k = 0; k < notes_[i].readings.size(); ++k)
      sums.at(static_cast<std::size_t>(role_of(notes_[i].readings[k]))) += notes_[i].probabilities[k];
    return static_cast<Role>(std::ranges::max_element(sums) - sums.begin());
  }

  void find_best_path() {
    std::vector<Eigen::Index> came_from(scores_.size());
    Scores best = scores(0);
    for (std::size_t i = 1; i < chain_.size(); ++i) {
      Scores here(count(i));
      for (Eigen::Index to = 0; to < count(i); ++to) {
        Eigen::Index from = 0;
        here(to) = scores(i)(to) + (best + between(i).col(to)).maxCoeff(&from);
        came_from[starts_[i] + static_cast<std::size_t>(to)] = from;
      }
      best = here;
    }
    Eigen::Index last = 0;
    best.maxCoeff(&last);
    for (std::size_t i = chain_.size(); i-- > 0;) {
      notes_[i].best = static_cast<std::size_t>(last);
      last = came_from[starts_[i] + static_cast<std::size_t>(last)];
    }
  }

  /// The log of the summed weight of all paths that end in each reading of each note, side by side.
  [[nodiscard]] std::vector<double> forward_scores() const {
    std::vector<double> forward(scores_);
    for (std::size_t i = 1; i < chain_.size(); ++i) {
      const ScoreMap before(forward.data() + starts_[i - 1], count(i - 1));
      for (Eigen::Index to = 0; to < count(i); ++to)
        forward[starts_[i] + static_cast<std::size_t>(to)] += log_of_sum(before + between(i).col(to));
    }
    return forward;
  }

  void find_probabilities() {
    const std::vector<double> forward = forward_scores();
    const auto forward_at = [&](std::size_t i) { return ScoreMap(forward.data() + starts_[i], count(i)); };
    const double total = log_of_sum(forward_at(chain_.size() - 1));
    Scores backward = Scores::Zero(count(chain_.size() - 1));
    for (std::size_t i = chain_.size(); i-- > 0;) {
      const Scores probability = (forward_at(i) + backward - total).exp();
      notes_[i].probabilities.assign(probability.data(), probability.data() + probability.size());
      if (i == 0) break;
      const Scores arriving = scores(i) + backward;
      Scores before(count(i - 1));
      for (Eigen::Index from = 0; from < count(i - 1); ++from)
        before(from) = log_of_sum(between(i).row(from).transpose() + arriving);
      backward = before;
    }
  }

  const Chain& chain_;
  std::vector<WeighedReadings> notes_;
  std::vector<double> scores_;  // of all readings of all notes, side by side
  std::vector<std::size_t> starts_;
  std::vector<double> between_;  // the transition scores of all pairs, side by side
  std::vector<std::size_t> between_starts_;
};

}  // namespace

std::vector<WeighedReadings> solve_chain(const Chain& chain, Hearing hearing) {
  return Lattice(chain, hearing).solve();
}

}  // namespace insideline
