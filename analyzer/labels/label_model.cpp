#include "analyzer/labels/label_model.hpp"

#include "analyzer/labels/score_table.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include <Eigen/Core>

namespace insideline {
namespace {

constexpr int most_readings = 32;  // possible_readings gives fewer for any note
constexpr double impossible = -std::numeric_limits<double>::infinity();

// Small and bounded, so that no note costs an allocation.
using Scores = Eigen::Array<double, Eigen::Dynamic, 1, Eigen::ColMajor, most_readings, 1>;
using ScoreMatrix = Eigen::Map<const Eigen::ArrayXXd>;
using Choices = std::vector<Eigen::Index>;

double log_of_sum(const Scores& scores) {
  const double largest = scores.maxCoeff();
  if (largest == impossible) return impossible;
  return largest + std::log((scores - largest).exp().sum());
}

class Lattice {
 public:
  Lattice(const Chain& chain, Hearing hearing) : chain_(chain), notes_(chain.size()), scores_(chain.size()) {
    for (std::size_t i = 0; i < chain.size(); ++i) {
      notes_[i].readings = possible_readings(chain, i, hearing);
      scores_[i] = unary(i);
    }
    between_starts_.resize(chain.size());
    for (std::size_t i = 1; i < chain.size(); ++i) add_transitions(i);
  }

  std::vector<WeighedReadings> solve() {
    find_probabilities();
    find_best_path();
    prefer_likely_roles();
    return std::move(notes_);
  }

 private:
  [[nodiscard]] Eigen::Index count(std::size_t i) const { return static_cast<Eigen::Index>(notes_[i].readings.size()); }
  [[nodiscard]] const Reading& reading(std::size_t i, Eigen::Index k) const {
    return notes_[i].readings[static_cast<std::size_t>(k)];
  }

  /// A figure must be complete: none starts in its middle, none ends without its target.
  [[nodiscard]] Scores unary(std::size_t i) const {
    Scores scores(count(i));
    for (Eigen::Index k = 0; k < count(i); ++k) {
      const bool cut_before = i == 0 && reading(i, k).part > 0;
      const bool cut_after = i + 1 == chain_.size() && needs_target(reading(i, k));
      scores(k) = cut_before || cut_after ? impossible : reading_score(reading(i, k), chain_, i);
    }
    return scores;
  }

  void add_transitions(std::size_t i) {
    between_starts_[i] = between_.size();
    for (const Reading& to : notes_[i].readings)
      for (const Reading& from : notes_[i - 1].readings)
        between_.push_back(may_follow(from, to, chain_[i].same_before) ? transition_score(from, to, chain_, i)
                                                                       : impossible);
  }

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
    std::vector<Choices> came_from(chain_.size());
    Scores best = scores_[0];
    for (std::size_t i = 1; i < chain_.size(); ++i) {
      Scores here(count(i));
      came_from[i].resize(notes_[i].readings.size());
      for (Eigen::Index to = 0; to < count(i); ++to) {
        Eigen::Index from = 0;
        here(to) = scores_[i](to) + (best + between(i).col(to)).maxCoeff(&from);
        came_from[i][static_cast<std::size_t>(to)] = from;
      }
      best = here;
    }
    Eigen::Index last = 0;
    best.maxCoeff(&last);
    for (std::size_t i = chain_.size(); i-- > 0;) {
      notes_[i].best = static_cast<std::size_t>(last);
      if (i > 0) last = came_from[i][static_cast<std::size_t>(last)];
    }
  }

  void find_probabilities() {
    std::vector<Scores> forward(chain_.size());
    forward[0] = scores_[0];
    for (std::size_t i = 1; i < chain_.size(); ++i) {
      forward[i].resize(count(i));
      for (Eigen::Index to = 0; to < count(i); ++to)
        forward[i](to) = scores_[i](to) + log_of_sum(forward[i - 1] + between(i).col(to));
    }
    const double total = log_of_sum(forward.back());
    Scores backward = Scores::Zero(count(chain_.size() - 1));
    for (std::size_t i = chain_.size(); i-- > 0;) {
      const Scores probability = (forward[i] + backward - total).exp();
      notes_[i].probabilities.assign(probability.data(), probability.data() + probability.size());
      if (i == 0) break;
      const Scores arriving = scores_[i] + backward;
      Scores before(count(i - 1));
      for (Eigen::Index from = 0; from < count(i - 1); ++from)
        before(from) = log_of_sum(between(i).row(from).transpose() + arriving);
      backward = before;
    }
  }

  const Chain& chain_;
  std::vector<WeighedReadings> notes_;
  std::vector<Scores> scores_;
  std::vector<double> between_;  // the transition scores of all pairs, side by side
  std::vector<std::size_t> between_starts_;
};

}  // namespace

std::vector<WeighedReadings> solve_chain(const Chain& chain, Hearing hearing) {
  return Lattice(chain, hearing).solve();
}

}  // namespace insideline
