// The block bootstrap against values found elsewhere: R 4.2.2 with boot 1.3-28.1 (block_bootstrap.R beside this file
// prints them), and cases whose answer is known beforehand.
#include "analyzer/measures/block_bootstrap.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <vector>

#include <catch2/catch.hpp>

using insideline::BarAmount;
using insideline::BarRing;
using insideline::Draws;

namespace {

using Bars = std::vector<BarAmount>;

std::vector<double> drawn(const Bars& bars, std::size_t block, int count) {
  const BarRing ring(bars);
  Draws dice(1, 1);
  std::vector<double> values;
  for (int i = 0; i < count; ++i) values.push_back(ring.drawn(block, dice).value());
  return values;
}

double mean(const std::vector<double>& values) {
  return std::accumulate(values.begin(), values.end(), 0.0) / static_cast<double>(values.size());
}

double standard_deviation(const std::vector<double>& values) {
  const double middle = mean(values);
  double sum = 0.0;
  for (const double value : values) sum += (value - middle) * (value - middle);
  return std::sqrt(sum / static_cast<double>(values.size() - 1));
}

Bars sixteen_bars() {
  return {{3, 4}, {5, 8}, {4, 6}, {2, 5}, {6, 8}, {4, 5}, {0, 1}, {3, 6},
          {5, 7}, {5, 8}, {2, 5}, {1, 4}, {4, 6}, {6, 8}, {3, 7}, {2, 4}};
}

}  // namespace

TEST_CASE("a share drawn again in circular blocks spreads as tsboot of R says") {
  // tsboot(cbind(part, whole), ratio, R = 100000, l, sim = "fixed", endcorr = TRUE): sd, 2.5 % and 97.5 %
  const auto [block, spread, low, high] = GENERATE(table<std::size_t, double, double, double>({
      {1, 0.0373, 0.5185, 0.6667},
      {2, 0.0362, 0.5195, 0.6632},
      {3, 0.0269, 0.5402, 0.6463},
      {4, 0.0200, 0.5591, 0.6364},
  }));
  std::vector<double> values = drawn(sixteen_bars(), block, 6000);
  CHECK(standard_deviation(values) == Approx(spread).epsilon(0.04));
  std::ranges::sort(values);
  CHECK(insideline::quantile(values, 0.025) == Approx(low).margin(0.004));
  CHECK(insideline::quantile(values, 0.975) == Approx(high).margin(0.004));
}

TEST_CASE("the length of a block is what the published rule gives for series that R holds") {
  // b_star(lh) of the script: 48 values of luteinizing hormone, R's data set lh
  const std::vector<double> lh = {2.4, 2.4, 2.4, 2.2, 2.1, 1.5, 2.3, 2.3, 2.5, 2,   1.9, 1.7, 2.2, 1.8, 3.2, 3.2,
                                  2.7, 2.2, 2.2, 1.9, 1.9, 1.8, 2.7, 3,   2.3, 2,   2,   2.9, 2.9, 2.7, 2.7, 2.3,
                                  2.6, 2.4, 1.8, 1.7, 1.5, 1.4, 2.1, 3.3, 3.5, 3.5, 3.1, 2.6, 2.1, 3.4, 3,   2.9};
  CHECK(insideline::automatic_block(lh) == Approx(2.990037));
  // b_star(Nile): 100 years of the flow of the Nile, R's data set Nile
  const std::vector<double> nile = {
      1120, 1160, 963,  1210, 1160, 1160, 813,  1230, 1370, 1140, 995,  935,  1110, 994, 1020, 960,  1180,
      799,  958,  1140, 1100, 1210, 1150, 1250, 1260, 1220, 1030, 1100, 774,  840,  874, 694,  940,  833,
      701,  916,  692,  1020, 1050, 969,  831,  726,  456,  824,  702,  1120, 1100, 832, 764,  821,  768,
      845,  864,  862,  698,  845,  744,  796,  1040, 759,  781,  865,  845,  944,  984, 897,  822,  1010,
      771,  676,  649,  846,  812,  742,  801,  1040, 860,  874,  848,  890,  744,  749, 838,  1050, 918,
      986,  797,  923,  975,  815,  1020, 906,  901,  1170, 912,  746,  919,  718,  714, 740};
  CHECK(insideline::automatic_block(nile) == Approx(14.11833));
}

TEST_CASE("percentiles are taken further out as Student's t is wider") {
  // pnorm(-sqrt(n / (n - 1)) * qt(0.975, n - 1)) for n = 4, 8, 16, 32: the share left out on either side
  const auto [blocks, tail] = GENERATE(table<double, double>({
      {4, 0.0001190307},
      {8, 0.005737521},
      {16, 0.01385557},
      {32, 0.01912583},
  }));
  std::vector<double> values(100'001);
  std::iota(values.begin(), values.end(), 0.0);
  CHECK(insideline::widened_interval(values, blocks).low == Approx(tail * 100'000).epsilon(0.01).margin(1.5));
}

TEST_CASE("bars that alternate, drawn by twos, always give one half") {
  Bars bars;
  for (int i = 0; i < 32; ++i) bars.push_back({.part = static_cast<double>(i % 2), .whole = 1});
  for (const double value : drawn(bars, 2, 500)) REQUIRE(value == Approx(0.5));
  CHECK(standard_deviation(drawn(bars, 1, 4000)) == Approx(0.5 / std::sqrt(32)).epsilon(0.05));
}

TEST_CASE("eight bars in and eight bars out spread far more than single bars would tell") {
  Bars bars;
  for (int i = 0; i < 64; ++i) bars.push_back({.part = i / 8 % 2 == 0 ? 1.0 : 0.0, .whole = 1});
  // Worked out: a run of eight holds 0 to 8 of the ones, with variance 0.0859; eight runs have sqrt(0.0859 / 8).
  CHECK(standard_deviation(drawn(bars, 8, 4000)) == Approx(0.1036).epsilon(0.04));
  CHECK(standard_deviation(drawn(bars, 1, 4000)) == Approx(0.0625).epsilon(0.04));
}

TEST_CASE("bars that are all equal have no spread") {
  const Bars bars(16, {.part = 3, .whole = 4});
  const std::vector<double> values = drawn(bars, 3, 200);
  CHECK(standard_deviation(values) == Approx(0.0).margin(1e-12));
  const auto interval = insideline::widened_interval(values, 16);
  CHECK(interval.low == Approx(0.75));
  CHECK(interval.high == Approx(0.75));
}
