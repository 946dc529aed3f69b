#include "analyzer/measures/ring_matches.hpp"

#include <catch2/catch.hpp>

#include <random>
#include <vector>

using insideline::RingMatches;
using Ring = std::vector<std::uint32_t>;

namespace {

Ring plain_sums(const Ring& a, const Ring& b) {
  Ring sums(a.size());
  for (std::size_t turn = 0; turn < a.size(); ++turn)
    for (std::size_t i = 0; i < a.size(); ++i) sums[turn] += a[i] * b[(i + turn) % b.size()];
  return sums;
}

Ring random_ring(std::mt19937& random, std::size_t size, std::uint32_t below) {
  Ring ring(size);
  for (std::uint32_t& value : ring) value = static_cast<std::uint32_t>(random() % below);
  return ring;
}

}  // namespace

TEST_CASE("a ring matches itself best when it is not turned") {
  RingMatches matches(4);
  matches.add(Ring{1, 1, 0, 0}, Ring{1, 1, 0, 0});
  CHECK(matches.sums() == Ring{2, 1, 0, 1});
}

TEST_CASE("rings of any length are matched exactly as place by place") {
  std::mt19937 random(7);
  for (const std::size_t size : {1U, 2U, 3U, 5U, 12U, 32U, 33U, 100U, 257U}) {
    CAPTURE(size);
    const Ring a = random_ring(random, size, 1000);
    const Ring b = random_ring(random, size, 1000);
    RingMatches matches(size);
    matches.add(a, b);
    CHECK(matches.sums() == plain_sums(a, b));
  }
}

TEST_CASE("pairs of rings add up") {
  std::mt19937 random(8);
  const Ring a = random_ring(random, 30, 9);
  const Ring b = random_ring(random, 30, 9);
  const Ring c = random_ring(random, 30, 9);
  RingMatches matches(30);
  matches.add(a, b);
  matches.add(c, b);
  Ring both = plain_sums(a, b);
  const Ring other = plain_sums(c, b);
  for (std::size_t i = 0; i < both.size(); ++i) both[i] += other[i];
  CHECK(matches.sums() == both);
}
