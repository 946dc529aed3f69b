#include "cli/day.hpp"

#include <cstddef>

namespace insideline::cli {

std::string not_a_day(const std::string& text) {
  bool is_day = text.size() == 10;
  for (std::size_t i = 0; is_day && i < text.size(); ++i)
    is_day = i == 4 || i == 7 ? text[i] == '-' : text[i] >= '0' && text[i] <= '9';
  return is_day ? std::string{} : "'" + text + "' is no day; write it as in 2026-11-25";
}

}  // namespace insideline::cli
