// Solos side by side: every figure of the table, how far each solo stands from the first, and how sure that is. The
// interval comes from drawing the bars of both again (block_bootstrap.hpp).
#pragma once

#include "analyzer/measures/figure_table.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace insideline {

/// A solo, or a part of one, as it is compared.
struct ComparedSolo {
  std::string name;
  int bars = 0;
  int notes = 0;
  int changes = 0;                     ///< of chord
  std::vector<BarSeries> figures;      ///< parallel to figure_rows()
  std::vector<std::size_t> of_bars{};  ///< of a part: indices into Solo::bars, in order; empty for a whole solo
};

/// A whole solo; `analysis` is of it.
ComparedSolo compared_solo(std::string name, const Solo& solo, const Analysis& analysis);

/// One a chorus, named "chorus 1" and so on; a bar belongs to the chorus that sounds at its bar line, a pickup to the
/// first. A single one where the changes do not loop.
std::vector<ComparedSolo> compared_choruses(const Solo& solo, const Analysis& analysis);

/// One a name of the lettered sections, all bars of that name together: "section A". Bars before the first letter are
/// left out, a pickup goes with the first bar. Empty where nothing is lettered.
std::vector<ComparedSolo> compared_sections(const Solo& solo, const Analysis& analysis);

/// The sections that `wanted` names (analyzer/model/sections.hpp) in each chorus, named "chorus 1, B" and so on.
/// Empty where no chorus has one.
std::vector<ComparedSolo> compared_section_by_chorus(const Solo& solo, const Analysis& analysis,
                                                     const std::string& wanted);

struct ComparisonSettings {
  int resamples = 2000;    ///< how often the bars are drawn again, > 0
  std::uint64_t seed = 1;  ///< the same seed gives the same result on every machine
};

struct FigureValue {
  BarAmount sum;
  std::optional<double> value;  ///< none where nothing was counted
  std::size_t block = 1;        ///< bars drawn together
};

enum class Verdict : std::uint8_t {
  more,
  less,
  no_clear_difference,
  in_neither,  ///< neither of the two has any: nothing to judge
  too_few      ///< too little is counted in one of the two, or it has too few bars
};

/// One figure of a solo against the same figure of the first.
struct FigureDifference {
  std::optional<double> difference;    ///< this solo minus the first
  std::optional<Interval95> interval;  ///< of the difference; none where nothing is judged
  Verdict verdict = Verdict::too_few;
};

struct SoloComparison {
  std::vector<FigureValue> values;            ///< parallel to figure_rows()
  std::vector<FigureDifference> differences;  ///< from the first solo; empty for the first itself
  int judged = 0;                             ///< figures with an interval
};

struct Comparison {
  std::vector<SoloComparison> solos;  ///< parallel to those given
  std::vector<std::string> cautions;  ///< one sentence each
};

/// At least two solos. Swapping two of them turns every sign round and changes nothing else.
Comparison compare(std::span<const ComparedSolo> solos, const ComparisonSettings& settings = {});

}  // namespace insideline
