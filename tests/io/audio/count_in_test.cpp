#include "io/audio/count_in.hpp"

#include <catch2/catch.hpp>

using insideline::io::count_in;
using Clicks = std::vector<std::size_t>;

TEST_CASE("a count-in is three clicks or more, evenly spaced") {
  CHECK(count_in(Clicks{100, 186, 272, 358}) == Clicks{100, 186, 272, 358});
  CHECK(count_in(Clicks{100, 187, 270, 358}) == Clicks{100, 187, 270, 358});
  CHECK(count_in(Clicks{20, 100, 186, 272}) == Clicks{100, 186, 272});
  CHECK(count_in(Clicks{100, 186}).empty());
  CHECK(count_in(Clicks{100, 186, 330, 350}).empty());
  CHECK(count_in(Clicks{100, 110, 120, 130}).empty());
  CHECK(count_in(Clicks{}).empty());
}
