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

TEST_CASE("every spelling of a word, and every sign for it, is that word") {
  using enum Word;
  const auto [spellings, word] = GENERATE(table<std::vector<std::string_view>, Word>({
      {{"major", "Major", "maj", "Maj", "MAJ", "ma", "M", "j"}, major},
      {{"^", "\u0394", "\u25B3", "\u2206"}, triangle},
      {{"minor", "Minor", "min", "mi", "m"}, minor},
      {{"-", "\u2212", "\u2010", "\u2011", "\u2013", "\u2014"}, minus},
      {{"diminished", "dim", "o", "\u00B0", "\u00BA", "\u25CB"}, diminished},
      {{"half-diminished", "halfdim", "hdim", "h", "\u00F8", "\u00D8", "\u2300", "\u2205"}, half_diminished},
      {{"augmented", "aug"}, augmented},
      {{"+"}, plus},
      {{"dominant", "dom"}, dominant},
      {{"suspended", "sus", "SUS"}, sus},
      {{"add"}, add},
      {{"omit", "no"}, omit},
      {{"altered", "alt", "Alt"}, alt},
      {{"th", "rd", "nd"}, ordinal},
      {{"#", "\u266F", "\U0001D12A"}, sharp},
      {{"b", "\u266D", "\U0001D12B"}, flat},
      {{"\u266E"}, natural},
      {{"(", "[", "{"}, open},
      {{")", "]", "}"}, close},
      {{",", " ", "\u00A0"}, separator},
      {{"/"}, slash},
      {{"1", "2", "3", "4", "5", "6", "7", "9", "10", "11", "13"}, number},
  }));
  for (const std::string_view spelling : spellings) {
    INFO(spelling);
    CHECK(words_of(spelling) == std::vector{word});
  }
}

TEST_CASE("a sign for two accidentals counts as two") {
  CHECK(symbol_tokens("\U0001D12A", 0).value().front().value == 2);
  CHECK(symbol_tokens("\U0001D12B", 0).value().front().value == 2);
  CHECK(symbol_tokens("\u266D", 0).value().front().value == 1);
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
