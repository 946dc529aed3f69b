#include "analyzer/harmony/chord_recipe.hpp"

#include "tests/support/chord_reading.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {

TEST_CASE("an eleventh stacked on a major third leaves the third out, on a minor one it stays") {
  ChordRecipe recipe;
  recipe.stack = 11;
  CHECK(spelled(tones_of(recipe)) == "1 5 b7 9 11");
  recipe.third_alter = -1;
  CHECK(spelled(tones_of(recipe)) == "1 b3 5 b7 9 11");
}

TEST_CASE("an alteration takes the natural's place, an addition stands beside it") {
  ChordRecipe recipe;
  recipe.stack = 13;
  recipe.alterations = {{9, -1}};
  CHECK(spelled(tones_of(recipe)) == "1 3 5 b7 13 b9");
  recipe.alterations.clear();
  recipe.additions = {{9, -1}};
  CHECK(spelled(tones_of(recipe)) == "1 3 5 b7 9 13 b9");
}

TEST_CASE("what is left out is taken from the stack and not from what is added") {
  ChordRecipe recipe;
  recipe.stack = 7;
  recipe.additions = {{3, -1}};
  recipe.omissions = {3, 5, 1};
  CHECK(spelled(tones_of(recipe)) == "1 b7 b3");
}

TEST_CASE("an altered dominant is root, third and seventh") {
  ChordRecipe recipe;
  recipe.stack = 7;
  recipe.altered_dominant = true;
  CHECK(spelled(tones_of(recipe)) == "1 3 b7");
}

}  // namespace insideline::tests
