// The likelihood of labelled lines under the chain of analyzer/labels, as a function of the values of the score table:
// a linear-chain conditional random field (Lafferty, McCallum & Pereira, Conditional Random Fields, 2001), where a
// line that may be read in several ways counts with the sum over all of them. The gradient is exact: expected rows
// given the readers' labels less expected rows given the notes alone, both from forward-backward sums.
#pragma once

#include "analyzer/labels/label_model.hpp"
#include "analyzer/labels/score_table.hpp"
#include "tests/support/label_file.hpp"

#include <cstddef>
#include <cstdint>
#include <vector>

#include <Eigen/Core>

namespace insideline::tests {

/// One value a row of the score table, in natural log units.
using RowValues = Eigen::VectorXd;

/// A list of rows for each of many things, side by side.
struct RowLists {
  void add(const std::vector<Row>& more) {
    rows.insert(rows.end(), more.begin(), more.end());
    starts.push_back(rows.size());
  }
  std::vector<Row> rows;
  std::vector<std::size_t> starts = {0};
};

/// A chain with all that its likelihood depends on.
struct LabelledChain {
  Lattice lattice;
  Chain contexts;
  std::vector<std::size_t> notes;        ///< of the solo, one a note of the chain
  RowLists rows;                         ///< of each reading
  std::vector<bool> cut;                 ///< a reading that the chain cuts short
  std::vector<std::size_t> pair_starts;  ///< of note i's pairs with the note before, to by to
  RowLists pair_rows;                    ///< of each pair
  std::vector<bool> pair_follows;
  std::vector<std::vector<double>> accepted;  ///< for each reader, one a reading: how far the reader accepts it, 0..1
  double weight = 1.0;                        ///< of each reader's labels in the sum
};

/// The chains of an example as the program cuts them.
std::vector<LabelledChain> labelled_chains(const LabelledExample& example);

/// True where `reading` of a note is what `expected` says.
bool agrees(const Reading& reading, const NoteContext& context, const ExpectedLabel& expected);

/// The probability of each reading of a chain under `values`.
std::vector<double> probabilities(const LabelledChain& chain, const RowValues& values);

/// The log of the probability that a reader hears the chain as one of the accepted ways, meant over the readers, and
/// its gradient added to `gradient`.
double add_log_likelihood(const LabelledChain& chain, const RowValues& values, RowValues& gradient);

}  // namespace insideline::tests
