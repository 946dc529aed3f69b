// Everything that comes again in a row of tokens: exact, and in steps that grow as the row does. The places of a part
// are sorted by the token after it, which gives those of all parts that are one token longer; what could be made longer
// to the left is given up at once. Maximal repeats as in Gusfield, Algorithms on Strings, Trees and Sequences (1997),
// from memory.
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
  std::size_t first = 0;   ///< index into Repeats::starts
  std::size_t places = 0;  ///< how many
};

struct Repeats {
  /// Where `repeat` stands, in order.
  [[nodiscard]] std::span<const std::size_t> starts_of(const MaximalRepeat& repeat) const {
    return std::span(starts).subspan(repeat.first, repeat.places);
  }

  std::vector<MaximalRepeat> found;  ///< by length
  std::vector<std::size_t> starts;
  std::size_t steps = 0;  ///< how much work it was: places sorted
};

/// Which repeats are asked for.
struct RepeatBounds {
  std::size_t shortest = 1;  ///< tokens
  std::size_t longest = 64;
  std::size_t fewest_places = 2;
  std::span<const std::size_t> bars{};  ///< of each token, in order; none: all stand in one
  std::size_t bars_apart = 0;  ///< `fewest_places` in a row must be no further apart, each from the one before it
};

/// The maximal repeats within `bounds`. `tokens` are `token_break` or small numbers from 0 on: each number up to the
/// largest takes 40 bytes. Fewer than 2^32 of them. Steps: at most the number of tokens, times `longest`.
Repeats maximal_repeats(std::span<const int> tokens, const RepeatBounds& bounds);

}  // namespace insideline
