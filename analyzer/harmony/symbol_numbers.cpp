#include "analyzer/harmony/symbol_numbers.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>

namespace insideline {
namespace {

bool is_accidental(Word word) { return is_number_part(word) && word != Word::number && word != Word::ordinal; }

int alter_of(const SymbolToken& token) {
  if (token.word == Word::sharp) return token.value;
  if (token.word == Word::flat) return -token.value;
  if (token.word == Word::plus || token.word == Word::augmented) return 1;
  if (token.word == Word::minus || token.word == Word::diminished) return -1;
  return 0;
}

/// Plus, minus, aug and dim are accidentals only before these.
/// Source: R. Hutchinson, Music Theory for the 21st-Century Classroom, 31.3; 4 for 11 is common practice, no source.
bool takes_signs(int number) { return number == 4 || number == 5 || number == 9 || number == 11 || number == 13; }

/// "bb" and "##" are one accidental; "b#", "b+" and "--" are none.
bool go_together(const SymbolToken& first, const SymbolToken& second) {
  return first.word == second.word && (first.word == Word::sharp || first.word == Word::flat);
}

bool binds(NamedNumber& named, const SymbolToken& accidental) {
  const bool letter_sign =
      accidental.word == Word::sharp || accidental.word == Word::flat || accidental.word == Word::natural;
  if (!letter_sign && !takes_signs(named.number)) return false;
  named.alter = named.alter.value_or(0) + alter_of(accidental);
  named.offset_bytes = std::min(named.offset_bytes, accidental.offset_bytes);
  return std::abs(*named.alter) <= most_accidentals;
}

/// A third or fifth without accidental says nothing in a run; the reading that leaves one is wrong.
bool all_say_something(const std::vector<NamedNumber>& numbers, bool opens_stack) {
  return std::none_of(numbers.begin() + (opens_stack ? 1 : 0), numbers.end(), [](const NamedNumber& named) {
    return !named.alter && (named.number == 3 || named.number == 5);
  });
}

std::optional<std::vector<NamedNumber>> bound_forward(std::span<const SymbolToken> run) {
  std::vector<NamedNumber> numbers;
  std::vector<SymbolToken> waiting;
  for (const SymbolToken& token : run) {
    if (is_accidental(token.word)) {
      if (!waiting.empty() && !go_together(waiting.back(), token)) return std::nullopt;
      waiting.push_back(token);
      continue;
    }
    if (token.word == Word::ordinal) continue;
    NamedNumber named{token.value, std::nullopt, token.offset_bytes};
    for (const SymbolToken& accidental : waiting)
      if (!binds(named, accidental)) return std::nullopt;
    waiting.clear();
    numbers.push_back(named);
  }
  if (!waiting.empty()) return std::nullopt;
  return numbers;
}

std::optional<std::vector<NamedNumber>> bound_backward(std::span<const SymbolToken> run) {
  std::vector<NamedNumber> numbers;
  const SymbolToken* before = nullptr;
  for (const SymbolToken& token : run) {
    if (token.word == Word::ordinal) continue;
    if (token.word == Word::number)
      numbers.push_back({token.value, std::nullopt, token.offset_bytes});
    else if (numbers.empty() || (is_accidental(before->word) && !go_together(*before, token)) ||
             !binds(numbers.back(), token))
      return std::nullopt;
    before = &token;
  }
  return numbers;
}

}  // namespace

bool is_number_part(Word word) {
  constexpr std::array parts = {Word::number, Word::ordinal, Word::sharp,     Word::flat,      Word::natural,
                                Word::plus,   Word::minus,   Word::augmented, Word::diminished};
  return std::ranges::find(parts, word) != parts.end();
}

std::optional<std::vector<NamedNumber>> named_numbers(std::span<const SymbolToken> run, bool opens_stack) {
  for (const auto& bound : {bound_forward(run), bound_backward(run)}) {
    if (!bound || bound->empty()) continue;
    if (opens_stack && bound->front().alter) continue;
    if (all_say_something(*bound, opens_stack)) return bound;
  }
  return std::nullopt;
}

std::optional<Degree> degree_named(const NamedNumber& named) {
  const int alter = named.alter.value_or(0);
  switch (named.number) {
    case 2: return Degree{9, alter};
    case 4: return Degree{11, alter};
    case 7: return Degree{7, !named.alter ? -1 : alter > 0 ? alter - 1 : alter};
    case 10: return alter == -1 ? std::optional(Degree{9, 1}) : std::nullopt;
    case 3:
    case 5:
    case 6:
    case 9:
    case 11:
    case 13: return Degree{named.number, alter};
    default: return std::nullopt;
  }
}

}  // namespace insideline
