#include "io/changes/beat_shares.hpp"

#include <string>
#include <vector>

#include <catch2/catch.hpp>

using insideline::Beats;
using insideline::Meter;
using insideline::io::given_beats;
using insideline::io::shared_beats;

namespace {

std::string written(const std::optional<std::vector<Beats>>& lengths) {
  if (!lengths) return "not evenly";
  std::string text;
  for (const Beats& length : *lengths) text += (text.empty() ? "" : " ") + to_string(length);
  return text;
}

}  // namespace

TEST_CASE("chords share a bar in whole beats, the first ones longer") {
  const auto [meter, chords, lengths] = GENERATE(table<Meter, int, std::string>({
      {{4, 4}, 1, "4"},
      {{4, 4}, 2, "2 2"},
      {{4, 4}, 3, "2 1 1"},
      {{4, 4}, 4, "1 1 1 1"},
      {{3, 4}, 2, "2 1"},
      {{3, 4}, 3, "1 1 1"},
      {{5, 4}, 2, "3 2"},
      {{5, 4}, 3, "2 2 1"},
      {{2, 4}, 2, "1 1"},
      {{2, 2}, 2, "2 2"},
      {{2, 2}, 3, "2 1 1"},  // counted in quarters, as players read three chords in cut time
      {{7, 8}, 2, "2 3/2"},
  }));
  CHECK(written(shared_beats(meter, chords)) == lengths);
}

TEST_CASE("compound meters are shared by the beats one taps, then by eighths") {
  const auto [meter, chords, lengths] = GENERATE(table<Meter, int, std::string>({
      {{6, 8}, 2, "3/2 3/2"},
      {{6, 8}, 3, "1 1 1"},
      {{12, 8}, 2, "3 3"},
      {{12, 8}, 3, "3 3/2 3/2"},
      {{12, 8}, 4, "3/2 3/2 3/2 3/2"},
      {{9, 8}, 2, "3 3/2"},
      {{3, 8}, 2, "1 1/2"},  // one bar of three eighths is not compound
  }));
  CHECK(written(shared_beats(meter, chords)) == lengths);
}

TEST_CASE("more chords than beats must divide every beat equally") {
  const auto [meter, chords, lengths] = GENERATE(table<Meter, int, std::string>({
      {{4, 4}, 8, "1/2 1/2 1/2 1/2 1/2 1/2 1/2 1/2"},
      {{3, 4}, 6, "1/2 1/2 1/2 1/2 1/2 1/2"},
      {{4, 4}, 5, "not evenly"},
      {{4, 4}, 7, "not evenly"},
      {{3, 4}, 4, "not evenly"},
  }));
  CHECK(written(shared_beats(meter, chords)) == lengths);
}

TEST_CASE("given beats must fill the bar, in counted beats or in tapped ones") {
  const auto [meter, beats, lengths] = GENERATE(table<Meter, std::vector<int>, std::string>({
      {{4, 4}, {3, 1}, "3 1"},
      {{4, 4}, {1, 1, 2}, "1 1 2"},
      {{3, 4}, {1, 2}, "1 2"},
      {{12, 8}, {3, 1}, "9/2 3/2"},
      {{12, 8}, {9, 3}, "9/2 3/2"},
      {{6, 8}, {1, 5}, "1/2 5/2"},
      {{4, 4}, {3, 2}, "not evenly"},
      {{4, 4}, {2, 1}, "not evenly"},
      {{6, 8}, {2, 2}, "not evenly"},
  }));
  CHECK(written(given_beats(meter, beats)) == lengths);
}
