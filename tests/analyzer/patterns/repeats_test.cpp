#include "analyzer/patterns/repeats.hpp"

#include <algorithm>
#include <map>
#include <set>
#include <string>
#include <vector>

#include <rapidcheck.h>
#include <catch2/catch.hpp>

using insideline::maximal_repeats;
using insideline::MaximalRepeat;
using insideline::Repeats;
using insideline::token_break;

namespace {

constexpr std::size_t any_length = 1000;

/// "abab cab": each letter a token, each space a break.
std::vector<int> tokens_of(const std::string& letters) {
  std::vector<int> tokens;
  for (const char letter : letters) tokens.push_back(letter == ' ' ? token_break : letter);
  return tokens;
}

std::string text_of(const std::vector<int>& tokens) {
  std::string text;
  for (const int token : tokens) text += token == token_break ? ' ' : static_cast<char>(token);
  return text;
}

/// Every part of every length with its places, tried one by one, and only those that cannot be made longer.
std::set<std::pair<std::string, std::vector<std::size_t>>> by_trying_all(const std::string& letters) {
  std::map<std::string, std::vector<std::size_t>> places;
  for (std::size_t length = 1; length <= letters.size(); ++length)
    for (std::size_t start = 0; start + length <= letters.size(); ++start)
      if (const std::string part = letters.substr(start, length); part.find(' ') == std::string::npos)
        places[part].push_back(start);
  std::set<std::pair<std::string, std::vector<std::size_t>>> maximal;
  for (const auto& [part, starts] : places) {
    std::set<std::string> before;
    std::set<std::string> after;
    for (const std::size_t start : starts) {
      const std::size_t end = start + part.size();
      const bool open_before = start > 0 && letters[start - 1] != ' ';
      const bool open_after = end < letters.size() && letters[end] != ' ';
      before.insert(open_before ? letters.substr(start - 1, 1) : "from " + std::to_string(start));
      after.insert(open_after ? letters.substr(end, 1) : "to " + std::to_string(end));
    }
    if (starts.size() > 1 && before.size() > 1 && after.size() > 1) maximal.emplace(part, starts);
  }
  return maximal;
}

std::vector<std::size_t> starts_of(const Repeats& repeats, const MaximalRepeat& repeat) {
  const auto starts = repeats.starts_of(repeat);
  return {starts.begin(), starts.end()};
}

std::set<std::pair<std::string, std::vector<std::size_t>>> by_sorting(const std::string& letters) {
  std::set<std::pair<std::string, std::vector<std::size_t>>> all;
  const Repeats repeats = maximal_repeats(tokens_of(letters), {.shortest = 1, .longest = any_length});
  for (const MaximalRepeat& repeat : repeats.found) {
    const std::vector<std::size_t> starts = starts_of(repeats, repeat);
    all.emplace(letters.substr(starts.front(), repeat.length), starts);
  }
  return all;
}

std::size_t steps_for(const std::string& letters) {
  return maximal_repeats(tokens_of(letters), {.shortest = 2, .longest = 64}).steps;
}

std::string times(const std::string& text, int count) {
  std::string all;
  for (int i = 0; i < count; ++i) all += text;
  return all;
}

/// Letters without any order, the same on every machine.
std::string mixed_letters(std::size_t count) {
  std::string letters;
  unsigned state = 1;
  while (letters.size() < count) {
    state = state * 1664525U + 1013904223U;
    letters += static_cast<char>('a' + (state >> 24U) % 6U);
  }
  return letters;
}

}  // namespace

TEST_CASE("what comes again is found at its full length, with every place") {
  const auto repeats = maximal_repeats(tokens_of("abcxabcyabz"), {.shortest = 2, .longest = any_length});
  REQUIRE(repeats.found.size() == 2);
  CHECK(repeats.found[0].length == 2);
  CHECK(starts_of(repeats, repeats.found[0]) == std::vector<std::size_t>{0, 4, 8});
  CHECK(repeats.found[1].length == 3);
  CHECK(starts_of(repeats, repeats.found[1]) == std::vector<std::size_t>{0, 4});
}

TEST_CASE("nothing runs across a break, and what comes once is no repeat") {
  CHECK(maximal_repeats(tokens_of("abcdef"), {.shortest = 1, .longest = any_length}).found.empty());
  CHECK(maximal_repeats(tokens_of("ab cab"), {.shortest = 3, .longest = any_length}).found.empty());
  CHECK(by_sorting("ab ab").contains({"ab", {0, 3}}));
  CHECK(maximal_repeats({}, {.shortest = 1, .longest = any_length}).found.empty());
}

TEST_CASE("repeats too long to be asked for are left out, shorter ones keep all their places") {
  const std::string letters = "abcdeabcdexbc";
  for (const MaximalRepeat& repeat : maximal_repeats(tokens_of(letters), {.shortest = 2, .longest = 4}).found)
    CHECK(repeat.length <= 4);
  const auto repeats = maximal_repeats(tokens_of(letters), {.shortest = 2, .longest = 4});
  REQUIRE(repeats.found.size() == 1);
  CHECK(starts_of(repeats, repeats.found[0]) == std::vector<std::size_t>{1, 6, 11});
}

TEST_CASE("what comes more rarely than asked for is left out, what comes often enough keeps all its places") {
  const auto repeats =
      maximal_repeats(tokens_of("abcxabcyabz"), {.shortest = 2, .longest = any_length, .fewest_places = 3});
  REQUIRE(repeats.found.size() == 1);
  CHECK(repeats.found[0].length == 2);
  CHECK(starts_of(repeats, repeats.found[0]) == std::vector<std::size_t>{0, 4, 8});
}

TEST_CASE("only what comes often enough at short distance is found, and then with every place") {
  const std::vector<int> tokens = tokens_of("abxabyabzcdxcdycdz");
  const std::vector<std::size_t> bars = {0, 0, 0, 1, 1, 1, 2, 2, 2, 3, 3, 3, 8, 8, 8, 9, 9, 9};
  const auto repeats = maximal_repeats(
      tokens, {.shortest = 2, .longest = any_length, .fewest_places = 3, .bars = bars, .bars_apart = 4});
  REQUIRE(repeats.found.size() == 1);
  CHECK(starts_of(repeats, repeats.found[0]) == std::vector<std::size_t>{0, 3, 6});
}

TEST_CASE("repeats are those that trying every part finds") {
  CHECK(rc::check([] {
    const auto letters = text_of(*rc::gen::container<std::vector<int>>(
        rc::gen::weightedElement<int>({{5, 'a'}, {4, 'b'}, {2, 'c'}, {1, token_break}})));
    RC_ASSERT(by_sorting(letters) == by_trying_all(letters));
  }));
}

TEST_CASE("twice as long a line takes about twice the steps to search") {
  for (const auto& [shorter, longer] :
       {std::pair{mixed_letters(2000), mixed_letters(4000)}, std::pair{times("a", 2000), times("a", 4000)},
        std::pair{times("abcad ", 400), times("abcad ", 800)},
        std::pair{times("abbcaba", 300), times("abbcaba", 600)}}) {
    INFO(shorter.substr(0, 12));
    const auto few = static_cast<double>(steps_for(shorter));
    const auto many = static_cast<double>(steps_for(longer));
    CHECK(few > 2000);
    CHECK(many < 2.3 * few);
  }
}
