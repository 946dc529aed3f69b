#include "io/content_hash.hpp"

#include <fmt/format.h>

namespace insideline::io {
namespace {

__extension__ using Wide = unsigned __int128;

constexpr int half_bits = 64;
constexpr std::uint64_t basis_high = 0x6c62272e07bb0142;
constexpr std::uint64_t basis_low = 0x62b821756295c58d;
constexpr Wide prime = (Wide{1} << 88U) + 0x13bU;

}  // namespace

ContentHash content_hash(std::string_view bytes, const ContentHash& so_far) {
  Wide hash = (Wide{so_far.high} << half_bits) | so_far.low;
  for (const char byte : bytes) {
    hash ^= static_cast<unsigned char>(byte);
    hash *= prime;
  }
  return {.high = static_cast<std::uint64_t>(hash >> half_bits), .low = static_cast<std::uint64_t>(hash)};
}

ContentHash content_hash(std::string_view bytes) { return content_hash(bytes, {.high = basis_high, .low = basis_low}); }

std::string to_string(const ContentHash& hash) { return fmt::format("{:016x}{:016x}", hash.high, hash.low); }

}  // namespace insideline::io
