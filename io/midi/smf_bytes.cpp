#include "io/midi/smf_bytes.hpp"

#include <cassert>

namespace insideline::io {

std::uint32_t big_endian(std::string_view bytes) {
  assert(bytes.size() <= 4 && "a number of the header has at most four bytes");
  std::uint32_t value = 0;
  for (const char byte : bytes) value = (value << 8U) | static_cast<std::uint8_t>(byte);
  return value;
}

void append_byte(std::string& bytes, unsigned value) { bytes.push_back(static_cast<char>(value & 0xFFU)); }

void append_vlq(std::string& bytes, std::uint32_t value) {
  assert(value <= largest_vlq && "times are capped before they are written");
  if (value < 1U << 7U) return append_byte(bytes, value);
  if (value >= 1U << 21U) append_byte(bytes, 0x80U | (value >> 21U));
  if (value >= 1U << 14U) append_byte(bytes, 0x80U | (value >> 14U));
  if (value >= 1U << 7U) append_byte(bytes, 0x80U | (value >> 7U));
  append_byte(bytes, value & 0x7FU);
}

void append_u16(std::string& bytes, std::uint32_t value) {
  append_byte(bytes, value >> 8U);
  append_byte(bytes, value);
}

void append_u32(std::string& bytes, std::uint32_t value) {
  append_u16(bytes, value >> 16U);
  append_u16(bytes, value);
}

}  // namespace insideline::io
