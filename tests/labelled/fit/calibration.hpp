// How true a stated probability is.
#pragma once

#include <vector>

namespace insideline::tests {

/// What was claimed, and how far it came true: 0 or 1, or between where two readers differ.
struct Claim {
  double probability = 0.0;
  double truth = 0.0;
};

/// Expected calibration error over ten equal bins (Naeini, Cooper & Hauskrecht, Obtaining Well Calibrated Probabilities
/// Using Bayesian Binning, 2015): the gap between what is claimed and what comes true, bin by bin, weighted by notes.
double calibration_error(const std::vector<Claim>& claims);

/// Mean squared distance of claim and truth (Brier, Verification of Forecasts Expressed in Terms of Probability, 1950).
double brier_score(const std::vector<Claim>& claims);
/// The same for somebody who always claims the mean of what comes true.
double brier_score_of_the_mean(std::vector<Claim> claims);

double mean_claim(const std::vector<Claim>& claims);
double mean_truth(const std::vector<Claim>& claims);

}  // namespace insideline::tests
