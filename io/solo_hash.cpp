#include "io/solo_hash.hpp"

#include <bit>
#include <cstddef>
#include <cstring>

namespace insideline::io {
namespace {

constexpr std::uint64_t first_factor = 0x87c37b91114253d5;
constexpr std::uint64_t second_factor = 0x4cf5ad432745937f;
constexpr std::size_t bits_a_byte = 8;
constexpr std::size_t word_bytes = 8;
constexpr std::size_t block_bytes = 2 * word_bytes;

/// Up to eight bytes, the first is the lowest; whole words in one step where the machine has them in this order.
std::uint64_t word_of(std::string_view bytes) {
  std::uint64_t word = 0;
  if (std::endian::native == std::endian::little && bytes.size() == word_bytes) {
    std::memcpy(&word, bytes.data(), word_bytes);
    return word;
  }
  for (std::size_t i = 0; i < bytes.size(); ++i)
    word |= std::uint64_t{static_cast<unsigned char>(bytes[i])} << (bits_a_byte * i);
  return word;
}

std::uint64_t mixed_first(std::uint64_t word) { return std::rotl(word * first_factor, 31) * second_factor; }
std::uint64_t mixed_second(std::uint64_t word) { return std::rotl(word * second_factor, 33) * first_factor; }

/// Lets every bit of the word tell on every other.
std::uint64_t stirred(std::uint64_t word) {
  constexpr unsigned half = 33;
  word = (word ^ (word >> half)) * 0xff51afd7ed558ccd;
  word = (word ^ (word >> half)) * 0xc4ceb9fe1a85ec53;
  return word ^ (word >> half);
}

}  // namespace

ContentHash solo_hash(std::string_view bytes, const ContentHash& so_far) {
  std::uint64_t first = so_far.high;
  std::uint64_t second = so_far.low;
  const std::uint64_t size = bytes.size();
  for (; bytes.size() >= block_bytes; bytes.remove_prefix(block_bytes)) {
    first ^= mixed_first(word_of(bytes.substr(0, word_bytes)));
    first = (std::rotl(first, 27) + second) * 5 + 0x52dce729;
    second ^= mixed_second(word_of(bytes.substr(word_bytes, word_bytes)));
    second = (std::rotl(second, 31) + first) * 5 + 0x38495ab5;
  }
  if (bytes.size() > word_bytes) second ^= mixed_second(word_of(bytes.substr(word_bytes)));
  first ^= mixed_first(word_of(bytes.substr(0, word_bytes)));
  first ^= size;
  second ^= size;
  first += second;
  second += first;
  first = stirred(first);
  second = stirred(second);
  first += second;
  second += first;
  return {.high = first, .low = second};
}

}  // namespace insideline::io
