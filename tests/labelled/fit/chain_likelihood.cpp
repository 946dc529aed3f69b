#include "tests/labelled/fit/chain_likelihood.hpp"

#include "analyzer/labels/joint.hpp"
#include "analyzer/labels/note_context.hpp"
#include "analyzer/labels/row_choice.hpp"
#include "analyzer/phrases.hpp"

#include <cmath>
#include <functional>

namespace insideline::tests {
namespace {

Figure figure_of_motive(Motive motive) {
  switch (motive) {
    case Motive::passing: return Figure::passing_tone;
    case Motive::neighbour: return Figure::neighbour_tone;
    case Motive::double_neighbour: return Figure::double_neighbour;
    case Motive::enclosure:
    case Motive::opening_enclosure:
    case Motive::closing_enclosure: return Figure::enclosure;
    case Motive::approach:
    case Motive::double_approach: return Figure::approach_tone;
    case Motive::appoggiatura: return Figure::appoggiatura;
    case Motive::escape: return Figure::escape_tone;
    case Motive::pedal: return Figure::pedal;
    case Motive::unexplained: return Figure::unexplained;
    case Motive::chord_tone:
    case Motive::tension:
    case Motive::no_chord: return Figure::none;
  }
  return Figure::none;
}

Against against(const Reading& reading, const NoteContext& context) {
  return context.pickup ? Against::next : reading.against;
}

/// What a reading counts that the reader does not name: without it a reader who names half of a figure, say one side of
/// an enclosure, would take the whole line out of the fit.
constexpr double slip_of_the_pen = 1e-3;

/// Marks the readings that a reader accepts. Who says how sure the first reading is has put it first for a reason:
/// then the others stand in only where nothing in its role is to be had. Otherwise all readings named count alike.
void add_accepted(std::vector<double>& accepted, std::span<const Reading> readings, const NoteContext& context,
                  const ReadNote& read) {
  const std::size_t first = accepted.size();
  accepted.resize(first + readings.size(), slip_of_the_pen);
  bool any = false;
  const auto mark = [&](auto is_accepted) {
    for (std::size_t k = 0; k < readings.size(); ++k) {
      if (!is_accepted(readings[k])) continue;
      accepted[first + k] = 1.0;
      any = true;
    }
  };
  for (const ExpectedLabel& expected : read.acceptable) {
    if (any && read.sure) return;
    mark([&](const Reading& reading) { return agrees(reading, context, expected); });
    if (!any) mark([&](const Reading& reading) { return role_of(reading) == expected.role; });
  }
  if (!any) mark([](const Reading&) { return true; });  // not asked about, or not to be had
}

void add_pairs(LabelledChain& result, const Chain& chain, std::size_t i) {
  result.pair_starts.push_back(result.pair_follows.size());
  if (i == 0) return;
  for (const Reading& to : result.lattice.at(i))
    for (const Reading& from : result.lattice.at(i - 1)) {
      result.pair_follows.push_back(may_follow(from, to, chain[i].same_before));
      result.pair_rows.add(result.pair_follows.back() ? rows_between(from, to, chain, i) : std::vector<Row>{});
    }
}

LabelledChain labelled_chain(const Chain& chain, const LabelledExample& example) {
  LabelledChain result;
  result.contexts = chain;
  result.lattice = lattice_of(chain, Hearing::as_heard);
  result.accepted.resize(example.readers.size());
  for (std::size_t i = 0; i < chain.size(); ++i) {
    result.notes.push_back(chain[i].note);
    for (std::size_t k = 0; k < result.lattice.count(i); ++k) {
      result.rows.add(rows_for(result.lattice.at(i)[k], chain, i));
      result.cut.push_back(score_in(result.lattice, chain, i, k) == impossible_score);
    }
    add_pairs(result, chain, i);
    for (std::size_t r = 0; r < example.readers.size(); ++r)
      add_accepted(result.accepted[r], result.lattice.at(i), chain[i], example.readers[r].notes[chain[i].note]);
  }
  return result;
}

double sum_of(const RowLists& lists, std::size_t index, const RowValues& values) {
  double sum = 0.0;
  for (std::size_t at = lists.starts[index]; at < lists.starts[index + 1]; ++at)
    sum += values(static_cast<Eigen::Index>(lists.rows[at]));
  return sum;
}

void add_rows(const RowLists& lists, std::size_t index, double times, RowValues& sums) {
  for (std::size_t at = lists.starts[index]; at < lists.starts[index + 1]; ++at)
    sums(static_cast<Eigen::Index>(lists.rows[at])) += times;
}

/// The weights of readings and pairs under some values.
struct Weights {
  Weights(const LabelledChain& chain, const RowValues& values) {
    for (std::size_t k = 0; k < chain.cut.size(); ++k)
      readings.push_back(chain.cut[k] ? 0.0 : std::exp(sum_of(chain.rows, k, values)));
    for (std::size_t p = 0; p < chain.pair_follows.size(); ++p)
      pairs.push_back(chain.pair_follows[p] ? std::exp(sum_of(chain.pair_rows, p, values)) : 0.0);
  }
  std::vector<double> readings;
  std::vector<double> pairs;
};

/// Forward and backward sums with `accepted` (empty: all) as further factors.
class Sums {
 public:
  Sums(const LabelledChain& chain, const Weights& weights, const std::vector<double>& accepted)
      : chain_(chain), lattice_(chain.lattice), weights_(weights), nodes_(weights.readings) {
    for (std::size_t k = 0; k < accepted.size(); ++k) nodes_[k] *= accepted[k];
    go_forward();
    go_backward();
  }

  [[nodiscard]] double log_total() const { return log_total_; }

  [[nodiscard]] std::vector<double> probabilities() const {
    std::vector<double> result(nodes_.size());
    for (std::size_t k = 0; k < result.size(); ++k) result[k] = forward_[k] * backward_[k];
    return result;
  }

  void add_expected_rows(double times, RowValues& sums) const {
    for (std::size_t k = 0; k < nodes_.size(); ++k) add_rows(chain_.rows, k, times * forward_[k] * backward_[k], sums);
    for (std::size_t i = 1; i < lattice_.size(); ++i)
      for_each_pair(i, [&](std::size_t from, std::size_t to, std::size_t pair) {
        const double probability = forward_[from] * weights_.pairs[pair] * nodes_[to] * backward_[to] / scales_[i];
        if (probability > 0.0) add_rows(chain_.pair_rows, pair, times * probability, sums);
      });
  }

 private:
  template <typename Use>
  void for_each_pair(std::size_t i, Use use) const {
    std::size_t pair = chain_.pair_starts[i];
    for (std::size_t to = lattice_.starts[i]; to < lattice_.starts[i + 1]; ++to)
      for (std::size_t from = lattice_.starts[i - 1]; from < lattice_.starts[i]; ++from) use(from, to, pair++);
  }

  void go_forward() {
    forward_.assign(nodes_.size(), 0.0);
    for (std::size_t i = 0; i < lattice_.size(); ++i) {
      if (i > 0)
        for_each_pair(i, [&](std::size_t from, std::size_t to, std::size_t pair) {
          forward_[to] += forward_[from] * weights_.pairs[pair];
        });
      double sum = 0.0;
      for (std::size_t k = lattice_.starts[i]; k < lattice_.starts[i + 1]; ++k) {
        forward_[k] = (i > 0 ? forward_[k] : 1.0) * nodes_[k];
        sum += forward_[k];
      }
      for (std::size_t k = lattice_.starts[i]; k < lattice_.starts[i + 1]; ++k) forward_[k] /= sum;
      scales_.push_back(sum);
      log_total_ += std::log(sum);
    }
  }

  void go_backward() {
    backward_.assign(nodes_.size(), 0.0);
    for (std::size_t k = lattice_.starts[lattice_.size() - 1]; k < nodes_.size(); ++k) backward_[k] = 1.0;
    for (std::size_t i = lattice_.size(); i-- > 1;)
      for_each_pair(i, [&](std::size_t from, std::size_t to, std::size_t pair) {
        backward_[from] += weights_.pairs[pair] * nodes_[to] * backward_[to] / scales_[i];
      });
  }

  const LabelledChain& chain_;
  const Lattice& lattice_;
  const Weights& weights_;
  std::vector<double> nodes_;
  std::vector<double> forward_;
  std::vector<double> backward_;
  std::vector<double> scales_;
  double log_total_ = 0.0;
};

}  // namespace

bool agrees(const Reading& reading, const NoteContext& context, const ExpectedLabel& expected) {
  if (role_of(reading) != expected.role) return false;
  if (expected.against) return against(reading, context) == *expected.against;
  if (expected.figure) return figure_of_motive(reading.motive) == *expected.figure;
  return !expected.placement || reading.placement == *expected.placement;
}

std::vector<LabelledChain> labelled_chains(const LabelledExample& example) {
  std::vector<LabelledChain> chains;
  for_each_chain(example.solo, example.harmony, find_phrases(example.solo, example.harmony), {},
                 [&](const Chain& chain) { chains.push_back(labelled_chain(chain, example)); });
  return chains;
}

std::vector<double> probabilities(const LabelledChain& chain, const RowValues& values) {
  const Weights weights(chain, values);
  return Sums(chain, weights, {}).probabilities();
}

double add_log_likelihood(const LabelledChain& chain, const RowValues& values, RowValues& gradient) {
  const Weights weights(chain, values);
  const Sums all(chain, weights, {});
  const double share = chain.weight / static_cast<double>(chain.accepted.size());
  double likelihood = 0.0;
  for (const std::vector<double>& accepted : chain.accepted) {
    const Sums given(chain, weights, accepted);
    if (!std::isfinite(given.log_total())) continue;  // no way to read the chain as this reader does
    likelihood += share * (given.log_total() - all.log_total());
    given.add_expected_rows(share, gradient);
    all.add_expected_rows(-share, gradient);
  }
  return likelihood;
}

}  // namespace insideline::tests
