// Shares and how sure they are. The intervals take the notes as independent, which the
// notes of a line are not: they are too narrow for a claim about a player, and right for
// showing how little a small count says.
#pragma once

#include "analyzer/measures/results.hpp"

#include <optional>

namespace insideline {

constexpr double normal_quantile = 1.959963984540054;  ///< two-sided 95 %

struct Interval95 {
  double low = 0.0;
  double high = 0.0;
};

/// Wilson's score interval, 95 %; none where nothing was counted.
/// Source: E. B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209-212.
std::optional<Interval95> wilson_interval(const Share& share);

/// 95 % interval of a's share minus b's, from the two Wilson intervals; none where one of
/// them counted nothing. Source: R. G. Newcombe, Statistics in Medicine 17 (1998) 873-890, method 10.
std::optional<Interval95> newcombe_interval(const Share& a, const Share& b);

/// 2 asin sqrt(a) - 2 asin sqrt(b); shares from 0 to 1.
/// Source: J. Cohen, Statistical Power Analysis for the Behavioral Sciences (1988).
double effect_size(double a, double b);

}  // namespace insideline
