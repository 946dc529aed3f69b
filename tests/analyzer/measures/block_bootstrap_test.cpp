#include "analyzer/measures/block_bootstrap.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::BarAmount;
using insideline::BarRing;
using insideline::Draws;

namespace {

using Bars = std::vector<BarAmount>;

Bars bars_of(const std::string& flags) {
  Bars bars;
  for (const char flag : flags) bars.push_back({.part = flag == '1' ? 1.0 : 0.0, .whole = 1.0});
  return bars;
}

/// The quotient of the bars that runs from `starts` on pick, bar by bar and with no cleverness.
double picked(const Bars& bars, const std::vector<std::size_t>& starts, std::size_t block) {
  BarAmount sum;
  for (std::size_t i = 0; i < bars.size(); ++i) {
    const BarAmount& bar = bars[(starts[i / block] + i % block) % bars.size()];
    sum.part += bar.part;
    sum.whole += bar.whole;
  }
  return sum.part / sum.whole;
}

/// Every way to choose the starts of the runs.
std::vector<std::vector<std::size_t>> all_starts(std::size_t bars, std::size_t runs) {
  std::vector<std::vector<std::size_t>> ways(1);
  for (std::size_t run = 0; run < runs; ++run) {
    std::vector<std::vector<std::size_t>> longer;
    for (const auto& way : ways)
      for (std::size_t start = 0; start < bars; ++start) {
        longer.push_back(way);
        longer.back().push_back(start);
      }
    ways = longer;
  }
  return ways;
}

}  // namespace

TEST_CASE("a figure of several bars is all parts over all wholes") {
  CHECK(insideline::quotient(Bars{{3, 4}, {1, 4}, {0, 0}}) == Approx(0.5));
  CHECK_FALSE(insideline::quotient(Bars{{0, 0}, {0, 0}}));
  CHECK_FALSE(insideline::quotient(Bars{}));
}

TEST_CASE("drawn runs go round the end of the solo, and the last one is cut") {
  const Bars bars = {{3, 4}, {5, 8}, {0, 1}, {2, 6}, {4, 5}};
  const BarRing ring(bars);
  for (std::size_t block = 1; block <= bars.size(); ++block)
    for (const auto& starts : all_starts(bars.size(), (bars.size() + block - 1) / block))
      REQUIRE(ring.drawn(starts, block).value() == Approx(picked(bars, starts, block)));
}

TEST_CASE("what is drawn is spread as all ways to draw it are") {
  const Bars bars = {{3, 4}, {5, 8}, {0, 1}, {2, 6}, {4, 5}};
  constexpr std::size_t block = 2;
  constexpr int draws = 20000;
  std::map<long, double> expected;  // by the value in millionths
  std::map<long, double> seen;
  const auto ways = all_starts(bars.size(), 3);
  for (const auto& starts : ways)
    expected[std::lround(picked(bars, starts, block) * 1e6)] += 1.0 / static_cast<double>(ways.size());
  const BarRing ring(bars);
  Draws dice(3, 1);
  for (int i = 0; i < draws; ++i) seen[std::lround(ring.drawn(block, dice).value() * 1e6)] += 1.0 / draws;
  for (const auto& [value, share] : seen) REQUIRE(expected.contains(value));
  for (const auto& [value, share] : expected)
    CHECK(seen[value] == Approx(share).margin(5 * std::sqrt(share / draws)));  // five standard errors
}

TEST_CASE("a draw in which nothing is counted has no value") {
  const BarRing ring(Bars{{1, 2}, {0, 0}});
  CHECK_FALSE(ring.drawn(std::vector<std::size_t>{1, 1}, 1));
  CHECK(ring.drawn(std::vector<std::size_t>{0, 1}, 1) == Approx(0.5));
  Draws dice(1, 1);
  CHECK_FALSE(BarRing(Bars{}).drawn(1, dice));
}

TEST_CASE("draws are even, and the same on every machine") {
  Draws dice(1, 1);
  std::vector<int> counts(7);
  for (int i = 0; i < 7000; ++i) ++counts.at(dice.below(7));
  CHECK(std::ranges::min(counts) > 880);  // four standard deviations are 117
  CHECK(std::ranges::max(counts) < 1120);
  // std::mt19937_64 seeded by std::seed_seq{1, 0, 1, 0}: both are fixed to the bit by the C++ standard,
  // and the numbers were worked out from its text in another language.
  Draws again(1, 1);
  std::vector<std::size_t> first;
  for (int i = 0; i < 8; ++i) first.push_back(again.below(1000));
  CHECK(first == std::vector<std::size_t>{661, 830, 725, 445, 979, 941, 499, 489});
  Draws other(1, 2);
  CHECK(other.below(1'000'000'007) != Draws(1, 1).below(1'000'000'007));
}

TEST_CASE("blocks are longer where neighbouring bars are alike") {
  Draws dice(5, 1);
  std::vector<double> apart;
  std::vector<double> alike;
  for (int i = 0; i < 200; ++i) {
    apart.push_back(static_cast<double>(dice.below(1000)));
    alike.push_back((alike.empty() ? 0.0 : 0.8 * alike.back()) + apart.back());
  }
  CHECK(insideline::automatic_block(apart) < 4);
  CHECK(insideline::automatic_block(alike) > 8);
}

TEST_CASE("a series that never changes, or is hardly there, has blocks of one") {
  CHECK(insideline::automatic_block(std::vector<double>(64, 0.25)) == Approx(1.0));
  CHECK(insideline::automatic_block(std::vector<double>{1, 2, 3}) == Approx(1.0));
  CHECK(insideline::block_length(Bars(16, {.part = 1, .whole = 2})) == 1);
  CHECK(insideline::block_length(Bars(16)) == 1);
  CHECK(insideline::block_length(Bars{}) == 1);
}

TEST_CASE("a block is never longer than about a third of the solo") {
  CHECK(insideline::block_length(bars_of("1111111100000000")) <= 6);
  CHECK(insideline::block_length(bars_of("111000")) <= 2);
}

TEST_CASE("a quantile lies between its neighbours in proportion") {
  const std::vector<double> sorted = {0, 10, 20, 30, 40};
  CHECK(insideline::quantile(sorted, 0.0) == Approx(0));
  CHECK(insideline::quantile(sorted, 0.25) == Approx(10));
  CHECK(insideline::quantile(sorted, 0.6) == Approx(24));
  CHECK(insideline::quantile(sorted, 1.0) == Approx(40));
}

TEST_CASE("the fewer blocks, the wider the interval") {
  std::vector<double> values(2001);
  std::iota(values.begin(), values.end(), 0.0);
  double width = 0.0;
  for (const double blocks : {1000.0, 32.0, 16.0, 8.0, 4.0, 2.0}) {
    const auto interval = insideline::widened_interval(values, blocks);
    CHECK(interval.high - interval.low > width);
    CHECK(interval.low + interval.high == Approx(2000));
    width = interval.high - interval.low;
  }
  CHECK(width <= 2000);
}
