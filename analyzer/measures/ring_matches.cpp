#include "analyzer/measures/ring_matches.hpp"

#include <algorithm>
#include <bit>
#include <cassert>
#include <utility>

namespace insideline {
namespace {

using Residues = std::vector<std::uint32_t>;

constexpr std::uint64_t prime = 998'244'353;  // 119 * 2^23 + 1
constexpr std::uint64_t generator = 3;        // of all residues but 0

std::uint32_t times(std::uint64_t a, std::uint64_t b) { return static_cast<std::uint32_t>(a * b % prime); }

std::uint32_t power(std::uint64_t base, std::uint64_t exponent) {
  std::uint32_t result = 1;
  for (; exponent > 0; exponent /= 2) {
    if (exponent % 2 == 1) result = times(result, base);
    base = times(base, base);
  }
  return result;
}

/// From values to the order in which halves of halves are put together.
void shuffle(Residues& values) {
  const std::size_t size = values.size();
  for (std::size_t i = 1, j = 0; i < size; ++i) {
    std::size_t bit = size / 2;
    for (; (j & bit) != 0; bit /= 2) j ^= bit;
    j ^= bit;
    if (i < j) std::swap(values[i], values[j]);
  }
}

/// The number of values is a power of two, at most 2^23.
void transform(Residues& values) {
  shuffle(values);
  Residues turns(values.size() / 2 + 1, 1);
  for (std::size_t length = 2; length <= values.size(); length *= 2) {
    const std::size_t half = length / 2;
    const std::uint32_t step = power(generator, (prime - 1) / length);
    for (std::size_t k = 1; k < half; ++k) turns[k] = times(turns[k - 1], step);
    for (std::size_t begin = 0; begin < values.size(); begin += length)
      for (std::size_t k = 0; k < half; ++k) {
        const std::uint64_t even = values[begin + k];
        const std::uint64_t odd = times(values[begin + k + half], turns[k]);
        values[begin + k] = static_cast<std::uint32_t>(even + odd < prime ? even + odd : even + odd - prime);
        values[begin + k + half] = static_cast<std::uint32_t>(even < odd ? even + prime - odd : even - odd);
      }
  }
}

void transform_back(Residues& values) {
  transform(values);
  std::reverse(values.begin() + 1, values.end());
  const std::uint32_t share = power(values.size(), prime - 2);
  for (std::uint32_t& value : values) value = times(value, share);
}

}  // namespace

RingMatches::RingMatches(std::size_t size) : size_(size), products_(std::bit_ceil(2 * size)) {
  assert(size >= 1 && size <= longest_matched_ring && "the transform has room for no longer ring");
}

void RingMatches::add(std::span<const std::uint32_t> a, std::span<const std::uint32_t> b) {
  assert(a.size() == size_ && b.size() == size_ && "both rings have the length that was said");
  Residues backwards(products_.size());
  Residues forwards(products_.size());
  std::ranges::reverse_copy(a, backwards.begin());
  std::ranges::copy(b, forwards.begin());
  transform(backwards);
  transform(forwards);
  for (std::size_t i = 0; i < products_.size(); ++i)
    products_[i] = static_cast<std::uint32_t>((products_[i] + std::uint64_t{times(backwards[i], forwards[i])}) % prime);
}

std::vector<std::uint32_t> RingMatches::sums() const {
  Residues sums = products_;
  transform_back(sums);
  // sums[size - 1 + t] has what lies before the seam at turn t, sums[t - 1] what lies behind it.
  Residues turned(size_);
  for (std::size_t turn = 0; turn < size_; ++turn)
    turned[turn] = sums[size_ - 1 + turn] + (turn == 0 ? 0 : sums[turn - 1]);
  return turned;
}

}  // namespace insideline
