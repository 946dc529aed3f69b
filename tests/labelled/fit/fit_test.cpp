#include "tests/labelled/fit/calibration.hpp"
#include "tests/labelled/fit/chain_likelihood.hpp"
#include "tests/labelled/fit/minimise.hpp"

#include <cmath>
#include <string>

#include <catch2/catch.hpp>

using Catch::Matchers::Contains;
using insideline::Row;
using insideline::tests::Claim;
using insideline::tests::LabelledChain;
using insideline::tests::RowValues;

namespace {

constexpr const char* header = "id\tchords\tnotes\tlabels\tlabels_2\n";

std::vector<LabelledChain> chains_of(const std::string& row) {
  return labelled_chains(insideline::tests::parse_label_file(header + row).front());
}

RowValues values_by_hand() {
  RowValues values(static_cast<Eigen::Index>(Row::count));
  for (Eigen::Index i = 0; i < values.size(); ++i) values(i) = score_row(static_cast<Row>(i)).by_hand;
  return values;
}

double likelihood(const std::vector<LabelledChain>& chains, const RowValues& values) {
  RowValues unused = RowValues::Zero(values.size());
  double sum = 0.0;
  for (const LabelledChain& chain : chains) sum += add_log_likelihood(chain, values, unused);
  return sum;
}

}  // namespace

TEST_CASE("the gradient of the likelihood is that of finite differences") {
  const auto chains = chains_of(
      "x\tDm7@0 G7@4\tF4:1/2 E4:1/2 D4:1/2 C#4:1/2 D4:1/2 A4:1/2 B4:1/2 C5:1/2 E5:1 Eb5:1/2 D5:1/2\t"
      "CT PT CT NT CT CT T|PT=60 CT@prev T=70 PT CT\tCT PT CT NT CT CT PT=55 CT PT APR|PT CT\n");
  const RowValues values = values_by_hand();
  RowValues gradient = RowValues::Zero(values.size());
  double sum = 0.0;
  for (const LabelledChain& chain : chains) sum += add_log_likelihood(chain, values, gradient);
  CHECK(sum < 0.0);
  constexpr double step = 1e-5;
  int moving = 0;
  for (Eigen::Index i = 0; i < values.size(); ++i) {
    RowValues up = values;
    RowValues down = values;
    up(i) += step;
    down(i) -= step;
    const double slope = (likelihood(chains, up) - likelihood(chains, down)) / (2.0 * step);
    INFO(score_row(static_cast<Row>(i)).name);
    CHECK(gradient(i) == Approx(slope).margin(1e-6));
    if (std::abs(slope) > 1e-3) ++moving;
  }
  CHECK(moving > 10);
}

TEST_CASE("a reading that is accepted among others counts with the sum of them") {
  const RowValues values = values_by_hand();
  const std::string line = "x\tG7@0\tB4:1 E5:2 D5:1\t";
  const double either = std::exp(likelihood(chains_of(line + "CT T|APP CT\n"), values));
  const double one = std::exp(likelihood(chains_of(line + "CT T CT\n"), values));
  const double other = std::exp(likelihood(chains_of(line + "CT APP CT\n"), values));
  CHECK(either == Approx(one + other).epsilon(0.005));  // what is not named counts a thousandth
}

TEST_CASE("a reader who names half of a figure keeps the line in the fit, as an unlikely one") {
  const RowValues values = values_by_hand();
  const std::string line = "x\tCmaj7@0\tG4:1 F4:1/2 D#4:1/2 E4:1\t";
  const double whole = likelihood(chains_of(line + "CT ENC ENC CT\n"), values);
  const double half = likelihood(chains_of(line + "CT ENC T CT\n"), values);  // one side of an enclosure alone
  CHECK(std::isfinite(half));
  CHECK(half < whole - 3.0);
}

TEST_CASE("the likelihoods of two readers are meant") {
  const RowValues values = values_by_hand();
  const std::string line = "x\tG7@0\tB4:1 E5:2 D5:1\t";
  const double both = likelihood(chains_of(line + "CT T CT\tCT APP CT\n"), values);
  const double first = likelihood(chains_of(line + "CT T CT\n"), values);
  const double second = likelihood(chains_of(line + "CT APP CT\n"), values);
  CHECK(both == Approx((first + second) / 2.0));
}

TEST_CASE("the least of a bowl is found") {
  const auto bowl = [](const Eigen::VectorXd& at, Eigen::VectorXd& gradient) {
    gradient.resize(2);
    gradient << 2.0 * (at(0) - 3.0) + at(1), 8.0 * (at(1) + 1.0) + at(0);
    return std::pow(at(0) - 3.0, 2) + 4.0 * std::pow(at(1) + 1.0, 2) + at(0) * at(1);
  };
  const Eigen::VectorXd least = insideline::tests::least(bowl, Eigen::VectorXd::Zero(2));
  // By hand: 2 x + y = 6 and x + 8 y = -8.
  CHECK(least(0) == Approx(56.0 / 15.0).margin(1e-4));
  CHECK(least(1) == Approx(-22.0 / 15.0).margin(1e-4));
}

TEST_CASE("calibration error and Brier score of five claims, worked by hand") {
  const std::vector<Claim> claims = {{0.95, 1.0}, {0.92, 0.0}, {0.65, 1.0}, {0.61, 0.5}, {0.2, 0.0}};
  // Bins: (.95 + .92) - 1 = .87; (.65 + .61) - 1.5 = -.24; .2. Together 1.31 of 5.
  CHECK(insideline::tests::calibration_error(claims) == Approx(1.31 / 5.0));
  // .0025 + .8464 + .1225 + .0121 + .04 = 1.0235 of 5.
  CHECK(insideline::tests::brier_score(claims) == Approx(1.0235 / 5.0));
  // All say .5: .25 + .25 + .25 + 0 + .25 = 1 of 5.
  CHECK(insideline::tests::brier_score_of_the_mean(claims) == Approx(1.0 / 5.0));
}

TEST_CASE("a malformed label file is refused with its name and the line") {
  const auto read = [](const std::string& row) {
    return insideline::tests::parse_label_file(header + ("# a comment\n" + row), "lines.tsv");
  };
  CHECK_THROWS_WITH(read("a\tC@0\tC4:1 E4:1\tCT\n"), Contains("lines.tsv:3: a: 1 labels for 2 notes"));
  CHECK_THROWS_WITH(read("a\tC@0\tC4:1\tXY\n"), Contains("lines.tsv:3: a: unknown label XY"));
  CHECK_THROWS_WITH(read("a\tC@0\tC4:1\tCT|T=140\n"),
                    Contains("lines.tsv:3: a: expected a number from 0 to 100, found 140"));
  CHECK_THROWS_WITH(read("a\tC@0\tC4:1\n"), Contains("lines.tsv:3: a: the column labels is missing or empty"));
}
