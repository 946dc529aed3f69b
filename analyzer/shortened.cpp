#include "analyzer/shortened.hpp"

#include <cstddef>

namespace insideline {

std::string shortened(std::string_view text) {
  constexpr std::size_t most = 40;
  if (text.size() <= most) return std::string(text);
  std::size_t length = most;
  while (length > 0 && (static_cast<unsigned char>(text[length]) & 0xC0U) == 0x80U) --length;  // not inside a character
  return std::string(text.substr(0, length)) + "...";
}

}  // namespace insideline
