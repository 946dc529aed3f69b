// A fingerprint of bytes: the same bytes give the same fingerprint on every machine. It tells a file that changed from
// one that did not; it is no protection against somebody who builds two files with one fingerprint on purpose.
// Source: FNV-1a with 128 bits, G. Fowler, L. C. Noll, K.-P. Vo and D. Eastlake, The FNV Non-Cryptographic Hash
// Algorithm (IETF, draft-eastlake-fnv).
#pragma once

#include <cstdint>
#include <string>
#include <string_view>

namespace insideline::io {

struct ContentHash {
  std::uint64_t high = 0;
  std::uint64_t low = 0;
  friend auto operator<=>(const ContentHash&, const ContentHash&) = default;
};

/// The fingerprint of `bytes`, or of what `so_far` is of with `bytes` behind it.
ContentHash content_hash(std::string_view bytes);
ContentHash content_hash(std::string_view bytes, const ContentHash& so_far);

/// 32 hexadecimal digits.
std::string to_string(const ContentHash& hash);

}  // namespace insideline::io
