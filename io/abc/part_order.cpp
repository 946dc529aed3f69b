#include "io/abc/part_order.hpp"

#include <cctype>
#include <cstddef>
#include <vector>

namespace insideline::io {
namespace {

constexpr std::size_t most_parts_in_order = 1000;

/// Plays the last letter, or what the last pair of parentheses holds, `times` times in all.
bool repeat_tail(std::string& order, std::size_t tail, int times) {
  const std::string part = order.substr(tail);
  if (times == 0 || order.size() + part.size() * static_cast<std::size_t>(times) > most_parts_in_order) return false;
  for (int i = 1; i < times; ++i) order += part;
  return true;
}

}  // namespace

std::optional<std::string> abc_part_order(std::string_view text) {
  std::string order;
  std::vector<std::size_t> opened;
  std::size_t tail = 0;
  for (std::size_t at = 0; at < text.size(); ++at) {
    const auto sign = static_cast<unsigned char>(text[at]);
    if (std::isupper(sign) != 0) {
      tail = order.size();
      order += text[at];
    } else if (sign == '(') {
      opened.push_back(order.size());
    } else if (sign == ')') {
      if (opened.empty()) return std::nullopt;
      tail = opened.back();
      opened.pop_back();
    } else if (std::isdigit(sign) != 0) {
      int times = 0;
      for (; at < text.size() && std::isdigit(static_cast<unsigned char>(text[at])) != 0 && times < 1000; ++at)
        times = times * 10 + (text[at] - '0');
      --at;
      if (!repeat_tail(order, tail, times)) return std::nullopt;
    } else if (sign != '.' && sign != ' ') {
      return std::nullopt;
    }
    if (order.size() > most_parts_in_order) return std::nullopt;
  }
  if (!opened.empty() || order.empty()) return std::nullopt;
  return order;
}

}  // namespace insideline::io
