// Everything that comes again in a row of tokens, by a suffix automaton: exact, and in steps that grow as the row does.
// Source: Blumer et al., The smallest automaton recognizing the subwords of a text, Theoretical Computer Science 40
// (1985), from memory; maximal repeats as in Gusfield, Algorithms on Strings, Trees and Sequences (1997), from memory.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace insideline {

/// No repeat runs across it.
constexpr int token_break = -1;

/// Tokens in a row that come at least twice and cannot be made longer, neither to the left nor to the right, without
/// losing a place. Places may overlap.
struct MaximalRepeat {
  std::size_t length = 0;
  std::vector<std::size_t> starts;  ///< in order
};

struct Repeats {
  std::vector<MaximalRepeat> found;  ///< by length, then by first place
  std::size_t steps = 0;             ///< how much work it was: links followed and places listed
};

/// Which repeats are asked for.
struct RepeatBounds {
  std::size_t shortest = 1;  ///< tokens
  std::size_t longest = 64;
  std::size_t fewest_places = 2;
};

/// The maximal repeats within `bounds`. `tokens` are 0 or more, or `token_break`; fewer than 2^30 of them. Steps: at
/// most the number of tokens, times `longest`.
Repeats maximal_repeats(std::span<const int> tokens, const RepeatBounds& bounds);

}  // namespace insideline
