// Bytes of a Standard MIDI File: big-endian numbers and variable-length quantities, read within
// bounds and written back. Source: Standard MIDI Files 1.0 (RP-001), "Conventions".
#pragma once

#include "io/midi/smf_fault.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include <tl/expected.hpp>

namespace insideline::io {

constexpr std::uint32_t largest_vlq = 0x0FFFFFFF;

/// Reads forward through a stretch of a file. Invariant: never past the end of `bytes`.
class SmfCursor {
 public:
  /// `bytes` lies `offset_bytes` into the file.
  SmfCursor(std::string_view bytes, std::size_t offset_bytes) : bytes_(bytes), origin_(offset_bytes) {}

  [[nodiscard]] bool at_end() const { return position_ == bytes_.size(); }
  [[nodiscard]] std::size_t left() const { return bytes_.size() - position_; }
  /// Where the next byte stands in the file.
  [[nodiscard]] std::size_t offset() const { return origin_ + position_; }

  std::optional<std::uint8_t> peek() const {
    if (at_end()) return std::nullopt;
    return static_cast<std::uint8_t>(bytes_[position_]);
  }
  std::optional<std::uint8_t> byte() {
    const auto next = peek();
    if (next) ++position_;
    return next;
  }
  /// None, and nothing read, where fewer than `count` bytes are left.
  std::optional<std::string_view> take(std::size_t count) {
    if (count > left()) return std::nullopt;
    const std::string_view taken = bytes_.substr(position_, count);
    position_ += count;
    return taken;
  }
  /// As many of `count` bytes as are left.
  std::string_view take_at_most(std::size_t count) { return *take(count < left() ? count : left()); }

  /// Goes to a place in the file that lies in this stretch.
  void seek(std::size_t offset_bytes) { position_ = offset_bytes - origin_; }
  /// Goes to the next `mark`, or to the end.
  void skip_to(std::string_view mark) {
    const std::size_t found = bytes_.find(mark, position_);
    position_ = found == std::string_view::npos ? bytes_.size() : found;
  }

  tl::expected<std::uint32_t, SmfFault> vlq() {
    std::uint32_t value = 0;
    for (int i = 0; i < 4; ++i) {
      const auto next = byte();
      if (!next) return tl::unexpected(SmfFault::vlq_truncated);
      value = (value << 7U) | (*next & 0x7FU);
      if ((*next & 0x80U) == 0) return value;
    }
    return tl::unexpected(SmfFault::vlq_too_long);
  }

 private:
  std::string_view bytes_;
  std::size_t origin_ = 0;
  std::size_t position_ = 0;
};

/// `bytes` has two or four bytes.
std::uint32_t big_endian(std::string_view bytes);

/// `value` is at most largest_vlq.
void append_vlq(std::string& bytes, std::uint32_t value);
void append_u16(std::string& bytes, std::uint32_t value);
void append_u32(std::string& bytes, std::uint32_t value);
void append_byte(std::string& bytes, unsigned value);

}  // namespace insideline::io
