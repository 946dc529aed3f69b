#include "analyzer/harmony/symbol_numbers.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {
namespace {

using Text = const char*;
enum class First { is_the_chords_own, is_added };

/// "b9 13" of a run, or "unreadable".
std::string bound(std::string_view run, First first) {
  const auto tokens = symbol_tokens(run, 0).value();
  const auto numbers = named_numbers(tokens, first == First::is_the_chords_own);
  if (!numbers) return "unreadable";
  std::string text;
  for (const NamedNumber& named : *numbers)
    text += (text.empty() ? "" : " ") + to_string(Degree{named.number, named.alter.value_or(0)});
  return text;
}

}  // namespace

TEST_CASE("accidentals belong to the number after them, or all to the number before") {
  const auto [run, first, expected] = GENERATE(table<Text, First, Text>({
      {"7b9", First::is_the_chords_own, "7 b9"},
      {"79b", First::is_the_chords_own, "7 b9"},
      {"79b13", First::is_the_chords_own, "7 9 b13"},
      {"79b13b", First::is_the_chords_own, "7 b9 b13"},
      {"75b9", First::is_the_chords_own, "7 b5 9"},  // a bare fifth would say nothing
      {"7b", First::is_the_chords_own, "unreadable"},
      {"b9#", First::is_added, "unreadable"},
      {"9-", First::is_added, "b9"},
      {"-7", First::is_added, "unreadable"},  // minus is a flat only before 5, 9, 11 and 13
      {"bb7", First::is_added, "bb7"},
      {"###9", First::is_added, "unreadable"},
      {"b#9", First::is_added, "unreadable"},  // signs that cancel out are no accidental
      {"b+9", First::is_added, "unreadable"},
      {"7--9", First::is_the_chords_own, "unreadable"},
      {"7+#9", First::is_the_chords_own, "unreadable"},
      {"79b#", First::is_the_chords_own, "unreadable"},
      {"7##9", First::is_the_chords_own, "7 ##9"},
  }));
  INFO(run);
  CHECK(bound(run, first) == expected);
}

TEST_CASE("a number in a symbol names a degree of the stack") {
  CHECK(degree_named({2, std::nullopt, 0}) == Degree{9, 0});
  CHECK(degree_named({4, 1, 0}) == Degree{11, 1});
  CHECK(degree_named({7, std::nullopt, 0}) == Degree{7, -1});
  CHECK(degree_named({7, -1, 0}) == Degree{7, -1});
  CHECK(degree_named({7, 0, 0}) == Degree{7, 0});
  CHECK(degree_named({7, 1, 0}) == Degree{7, 0});
  CHECK(degree_named({10, -1, 0}) == Degree{9, 1});
  CHECK_FALSE(degree_named({10, std::nullopt, 0}));
  CHECK_FALSE(degree_named({1, -1, 0}));
}

}  // namespace insideline::tests
