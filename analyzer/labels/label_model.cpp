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
constexpr std::size_t usual_readings = 3;
constexpr std::size_t usual_pairs = 8;
constexpr double impossible = -std::numeric_limits<double>::infinity();

// Bounded, so that no note costs an allocation; what is kept for a whole chain lies side by side.
using Scores = Eigen::Array<double, Eigen::Dynamic, 1, Eigen::ColMajor, most_readings, 1>;
using ScoreMap = Eigen::Map<const Eigen::ArrayXd>;
using ScoreMatrix = Eigen::Map<const Eigen::ArrayXXd>;

/// For each column `to`: log of the sum over the rows `from` of exp(scores(from) + between(from, to)).
/// `weights` is exp(between). Scaled by the largest score, so that nothing overflows.
template <typename Between, typename Weights>
Scores log_sums(const Scores& scores, const Between& between, const Weights& weights) {
  if (scores.size() == 1) return scores(0) + between.row(0).transpose();
  const double largest = scores.maxCoeff();
  const auto scaled = (scores - largest).exp().matrix().eval();
  return largest + weights.matrix().transpose().lazyProduct(scaled).array().log();
}

/// Most pairs score nothing.
double weight_of(double score) { return score == 0.0 ? 1.0 : std::exp(score); }

class Lattice {
 public:
  Lattice(const Chain& chain, Hearing hearing) : chain_(chain) {
    reserve(chain.size());
    for (std::size_t i = 0; i < chain.size(); ++i) {
      solved_.starts.push_back(solved_.readings.size());
      add_possible_readings(solved_.readings, chain, i, hearing);
      add_scores(i);
      add_transitions(i);
    }
    solved_.starts.push_back(solved_.readings.size());
  }

  WeighedChain solve() {
    find_probabilities();
    find_best_path();
    prefer_likely_roles();
    return std::move(solved_);
  }

 private:
  void reserve(std::size_t notes) {
    solved_.readings.reserve(notes * usual_readings);
    solved_.starts.reserve(notes + 1);
    scores_.reserve(notes * usual_readings);
    between_.reserve(notes * usual_pairs);
    weights_.reserve(notes * usual_pairs);
    between_starts_.reserve(notes);
  }

  [[nodiscard]] std::size_t start(std::size_t i) const { return solved_.starts[i]; }
  [[nodiscard]] Eigen::Index count(std::size_t i) const { return static_cast<Eigen::Index>(start(i + 1) - start(i)); }
  /// Of note `i`, or of the last one added.
  [[nodiscard]] std::span<const Reading> readings(std::size_t i) const {
    const std::size_t end = i + 1 < solved_.starts.size() ? start(i + 1) : solved_.readings.size();
    return {solved_.readings.data() + start(i), end - start(i)};
  }

  /// A figure must be complete: none starts in its middle, none ends without its target.
  void add_scores(std::size_t i) {
    for (const Reading& reading : readings(i)) {
      const bool cut_before = i == 0 && reading.part > 0;
      const bool cut_after = i + 1 == chain_.size() && needs_target(reading);
      scores_.push_back(cut_before || cut_after ? impossible : reading_score(reading, chain_, i));
    }
  }

  void add_transitions(std::size_t i) {
    between_starts_.push_back(between_.size());
    if (i == 0) return;
    for (const Reading& to : readings(i)) {
      for (const Reading& from : readings(i - 1)) {
        const bool follows = may_follow(from, to, chain_[i].same_before);
        between_.push_back(follows ? transition_score(from, to, chain_, i) : impossible);
        weights_.push_back(follows ? weight_of(between_.back()) : 0.0);
      }
    }
  }

  [[nodiscard]] ScoreMap scores(std::size_t i) const { return {scores_.data() + start(i), count(i)}; }

  /// Row: reading of note i - 1; column: reading of note i.
  [[nodiscard]] ScoreMatrix between(std::size_t i) const {
    return {between_.data() + between_starts_[i], count(i - 1), count(i)};
  }
  [[nodiscard]] ScoreMatrix weights(std::size_t i) const {
    return {weights_.data() + between_starts_[i], count(i - 1), count(i)};
  }

  /// The best path as a whole may hear a single note in a role that is less likely than another
  /// one over all paths. Such a note takes the likeliest reading of its likeliest role instead, so
  /// that no note is labelled against the odds. On played lines this hardly ever happens.
  void prefer_likely_roles() {
    for (std::size_t i = 0; i < chain_.size(); ++i) {
      if (count(i) == 1) continue;
      const WeighedReadings note = solved_[i];
      const Role likeliest = likeliest_role(note);
      if (role_of(note.readings[note.best]) == likeliest) continue;
      double highest = -1.0;
      for (std::size_t k = 0; k < note.readings.size(); ++k) {
        if (role_of(note.readings[k]) != likeliest || note.probabilities[k] <= highest) continue;
        highest = note.probabilities[k];
        solved_.best[i] = k;
      }
    }
  }

  [[nodiscard]] static Role likeliest_role(const WeighedReadings& note) {
    std::array<double, static_cast<std::size_t>(Role::no_chord) + 1> sums{};
    for (std::size_t k = 0; k < note.readings.size(); ++k)
      sums.at(static_cast<std::size_t>(role_of(note.readings[k]))) += note.probabilities[k];
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
        came_from[start(i) + static_cast<std::size_t>(to)] = from;
      }
      best = here;
    }
    Eigen::Index last = 0;
    best.maxCoeff(&last);
    solved_.best.resize(chain_.size());
    for (std::size_t i = chain_.size(); i-- > 0;) {
      solved_.best[i] = static_cast<std::size_t>(last);
      last = came_from[start(i) + static_cast<std::size_t>(last)];
    }
  }

  /// The log of the summed weight of all paths that end in each reading of each note, side by side.
  [[nodiscard]] std::vector<double> forward_scores() const {
    std::vector<double> forward(scores_);
    for (std::size_t i = 1; i < chain_.size(); ++i) {
      const ScoreMap before(forward.data() + start(i - 1), count(i - 1));
      Eigen::Map<Eigen::ArrayXd> here(forward.data() + start(i), count(i));
      here += log_sums(before, between(i), weights(i));
    }
    return forward;
  }

  void find_probabilities() {
    const std::vector<double> forward = forward_scores();
    const auto forward_at = [&](std::size_t i) { return ScoreMap(forward.data() + start(i), count(i)); };
    const Scores ends = forward_at(chain_.size() - 1);
    const double total = ends.maxCoeff() + std::log((ends - ends.maxCoeff()).exp().sum());
    Scores backward = Scores::Zero(ends.size());
    solved_.probabilities.assign(scores_.size(), 1.0);
    for (std::size_t i = chain_.size(); i-- > 0;) {
      Eigen::Map<Eigen::ArrayXd> probability(solved_.probabilities.data() + start(i), count(i));
      if (count(i) > 1) probability = (forward_at(i) + backward - total).exp();
      if (i == 0) break;
      const Scores arriving = scores(i) + backward;
      backward = log_sums(arriving, between(i).transpose(), weights(i).transpose());
    }
  }

  const Chain& chain_;
  WeighedChain solved_;
  std::vector<double> scores_;   // parallel to the readings
  std::vector<double> between_;  // the transition scores of all pairs, side by side
  std::vector<double> weights_;  // exp of them
  std::vector<std::size_t> between_starts_;
};

}  // namespace

WeighedChain solve_chain(const Chain& chain, Hearing hearing) { return Lattice(chain, hearing).solve(); }

}  // namespace insideline
