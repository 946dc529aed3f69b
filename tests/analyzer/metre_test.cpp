#include "analyzer/metre.hpp"

#include <vector>

#include <catch2/catch.hpp>

using insideline::Bar;
using insideline::Beats;
using insideline::Feel;
using insideline::Meter;

namespace {

Bar bar_of(const Meter& meter) { return {.number = 1, .onset = 0, .length = bar_length(meter), .meter = meter}; }

std::vector<int> weights_in_eighths(const Meter& meter) {
  const Bar bar = bar_of(meter);
  std::vector<int> weights;
  for (Beats place; place < bar.length; place += Beats(1, 2))
    weights.push_back(metrical_weight(bar, place, Feel::straight));
  return weights;
}

}  // namespace

// Lerdahl & Jackendoff 1983: dots of the grid with the levels eighth, quarter, half bar, bar.
TEST_CASE("the places of a bar weigh as many dots as the grid gives them") {
  CHECK(weights_in_eighths({4, 4}) == std::vector<int>{4, 1, 2, 1, 3, 1, 2, 1});
  CHECK(weights_in_eighths({3, 4}) == std::vector<int>{3, 1, 2, 1, 2, 1});
  CHECK(weights_in_eighths({6, 8}) == std::vector<int>{3, 1, 1, 2, 1, 1});
}

TEST_CASE("swung, the last third and the last quarter of a beat are its off-beat") {
  const Bar bar = bar_of({4, 4});
  for (const Beats& place : {Beats(1, 2), Beats(2, 3), Beats(3, 4)})
    CHECK(metrical_weight(bar, place, Feel::swing) == 1);
  for (const Beats& place : {Beats(1, 4), Beats(1, 3)}) CHECK(metrical_weight(bar, place, Feel::swing) == 0);
  CHECK(metrical_weight(bar, Beats(2, 3), Feel::straight) == 0);
}

TEST_CASE("a place is named as players count it") {
  const Bar bar = bar_of({4, 4});
  CHECK(place_in_words(bar, 0) == "beat 1");
  CHECK(place_in_words(bar, Beats(7, 2)) == "the and of 4");
  CHECK(place_in_words(bar, Beats(4, 3)) == "beat 2, second triplet");
  CHECK(place_in_words(bar, Beats(5, 4)) == "beat 2, second sixteenth");
  CHECK(place_in_words(bar, Beats(6, 5)) == "1/5 of a beat after 2");
}

TEST_CASE("in compound meters three eighths are felt as one beat") {
  CHECK(insideline::felt_beat({6, 8}) == Beats(3, 2));
  CHECK(insideline::felt_beat({4, 4}) == Beats(1));
  CHECK(insideline::felt_beat({3, 8}) == Beats(1, 2));
  CHECK(is_on_beat(bar_of({4, 4}), 2));
  CHECK_FALSE(is_on_beat(bar_of({4, 4}), Beats(5, 2)));
}
