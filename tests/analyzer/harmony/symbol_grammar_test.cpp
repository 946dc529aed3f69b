#include "analyzer/harmony/symbol_grammar.hpp"

#include "tests/support/chord_reading.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {
namespace {

ChordRecipe recipe_of(std::string_view body) {
  const auto words = symbol_tokens(body, 1).value();
  return recipe_from(words, body.size() + 1).value();
}

}  // namespace

TEST_CASE("a quality says what third, fifth and seventh are stacked") {
  CHECK(recipe_of("m7").third_alter == -1);
  CHECK(recipe_of("+7").fifth_alter == 1);
  CHECK(recipe_of("maj7").seventh_alter == 0);
  CHECK(recipe_of("dim7").seventh_alter == -2);
  CHECK(recipe_of("m").stack == 0);
  CHECK(recipe_of("\u00F8").stack == 7);
  CHECK(recipe_of("\u25B3").stack == 7);
  CHECK(recipe_of("maj").stack == 0);
}

TEST_CASE("a dominant is a seventh chord unless its number says more") {
  CHECK(recipe_of("dom").stack == 7);
  CHECK(recipe_of("dom7").stack == 7);
  CHECK(recipe_of("dom9").stack == 9);
  CHECK(recipe_of("dom").third_alter == 0);
}

TEST_CASE("a 5 after a quality is no power chord") {
  CHECK(recipe_of("5").stack == 5);
  for (const std::string_view body : {"dom5", "m5", "maj5"}) {
    INFO(body);
    const auto words = symbol_tokens(body, 1).value();
    CHECK_FALSE(recipe_from(words, body.size() + 1));
  }
}

TEST_CASE("sus alone is the fourth, and the fourth or second that it names stand for the third") {
  CHECK(spelled(recipe_of("sus").suspensions) == "4");
  CHECK(spelled(recipe_of("7sus").suspensions) == "4");
  CHECK(spelled(recipe_of("sus2").suspensions) == "2");
  CHECK(spelled(recipe_of("sus24").suspensions) == "2 4");
  CHECK(spelled(recipe_of("sus#4").suspensions) == "#4");
  CHECK(recipe_of("sus9").stack == 9);
}

TEST_CASE("a plus or aug alone after the chord's own number raises the fifth, before a number it raises that") {
  const auto [body, alterations, stack] = GENERATE(table<const char*, const char*, int>({
      {"7+", "#5", 7},
      {"9+", "#5", 9},
      {"7aug", "#5", 7},
      {"m7+", "#5", 7},
      {"7+9", "#9", 7},
      {"7+b9", "#5 b9", 7},
      {"7+#9", "#5 #9", 7},
      {"7+-9", "#5 b9", 7},
      {"9aug#11", "#5 #11", 9},
      {"6-9", "", 6},  // 6/9
      {"7(+)", "#5", 7},
      {"7(+9)", "#9", 7},
      {"7(-13)", "b13", 7},
  }));
  INFO(body);
  const ChordRecipe recipe = recipe_of(body);
  CHECK(spelled(recipe.alterations) == alterations);
  CHECK(recipe.stack == stack);
}

TEST_CASE("alterations, further numbers, additions and omissions are kept apart") {
  const ChordRecipe recipe = recipe_of("13b9(9)add#11omit5");
  CHECK(recipe.stack == 13);
  CHECK(spelled(recipe.alterations) == "b9");
  CHECK(spelled(recipe.stacked) == "9");
  CHECK(spelled(recipe.additions) == "#11");
  CHECK(recipe.omissions == std::vector{5});
}

TEST_CASE("the grammar says in which byte of the symbol it stopped") {
  const std::string_view body = "7b9sus4b";
  const auto words = symbol_tokens(body, 2).value();
  const auto recipe = recipe_from(words, 2 + body.size());
  REQUIRE_FALSE(recipe);
  CHECK(recipe.error().offset_bytes == 9);
  CHECK(recipe.error().message == "found an accidental or sign without the number it belongs to");
}

}  // namespace insideline::tests
