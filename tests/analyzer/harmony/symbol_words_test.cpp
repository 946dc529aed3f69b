#include "analyzer/harmony/symbol_words.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {
namespace {

std::vector<Word> words_of(std::string_view body) {
  std::vector<Word> words;
  const auto tokens = symbol_tokens(body, 1).value();
  for (const SymbolToken& token : tokens) words.push_back(token.word);
  return words;
}

}  // namespace

TEST_CASE("the longest word is taken that leaves the rest readable") {
  using enum Word;
  CHECK(words_of("maj7") == std::vector{major, number});
  CHECK(words_of("madd9") == std::vector{minor, add, number});
  CHECK(words_of("Madd9") == std::vector{major, add, number});
  CHECK(words_of("maug") == std::vector{minor, augmented});
  CHECK(words_of("omit3") == std::vector{omit, number});
  CHECK(words_of("o7") == std::vector{diminished, number});
  CHECK(words_of("\u00F87") == std::vector{half_diminished, number});
}

TEST_CASE("digits that stand together are taken apart") {
  std::vector<int> values;
  const auto tokens = symbol_tokens("791113", 0).value();
  for (const SymbolToken& token : tokens) values.push_back(token.value);
  CHECK(values == std::vector{7, 9, 11, 13});
}

TEST_CASE("words know where they stand, in bytes") {
  const auto tokens = symbol_tokens("7\u266D9", 2).value();
  REQUIRE(tokens.size() == 3);
  CHECK(tokens[1].offset_bytes == 3);
  CHECK(tokens[2].offset_bytes == 6);
}

TEST_CASE("a root takes as many accidentals as there are, up to two") {
  std::string_view text = "Bbb7";
  CHECK(take_symbol_note(text) == NoteName{Step::b, -2});
  CHECK(text == "7");
  std::string_view sharp_then_flat = "C#b9";
  CHECK(take_symbol_note(sharp_then_flat) == NoteName{Step::c, 1});
  CHECK(sharp_then_flat == "b9");
  std::string_view too_many = "Cbbb";
  CHECK_FALSE(take_symbol_note(too_many));
  CHECK(too_many == "Cbbb");
}

}  // namespace insideline::tests
