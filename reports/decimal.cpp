#include "reports/decimal.hpp"

#include <array>
#include <charconv>
#include <cmath>
#include <string_view>

#include <fmt/format.h>

namespace insideline::reports {
namespace {

constexpr int places = 6;
constexpr std::int64_t one = 1'000'000;

std::string trimmed(std::string text) {
  text.erase(text.find_last_not_of('0') + 1);
  if (text.ends_with('.')) text.pop_back();
  return text == "-0" ? "0" : text;
}

}  // namespace

void append_millionths(std::string& text, std::int64_t millionths) {
  std::array<char, 24> digits{};
  if (millionths < 0) text += '-';
  const std::int64_t size = millionths < 0 ? -millionths : millionths;
  const auto whole = std::to_chars(digits.data(), digits.data() + digits.size(), size / one);
  text.append(digits.data(), whole.ptr);
  std::int64_t rest = size % one;
  if (rest == 0) return;
  int last = places;
  for (int place = places; place > 0; --place, rest /= 10) {
    digits.at(static_cast<std::size_t>(place)) = static_cast<char>('0' + rest % 10);
    if (place == last && rest % 10 == 0) --last;
  }
  digits[0] = '.';
  text.append(digits.data(), static_cast<std::size_t>(last) + 1);
}

void append_decimal(std::string& text, double value) {
  constexpr double largest = 1e12;         // up to here a product below is off by less than ...
  constexpr double rounding = 1.0 / 1024;  // ... this
  const double millionths = value * one;
  const double nearest = std::nearbyint(millionths);
  const bool is_tie = std::abs(std::abs(millionths - nearest) - 0.5) < rounding;
  if (std::abs(millionths) < largest && !is_tie) return append_millionths(text, static_cast<std::int64_t>(nearest));
  text += trimmed(fmt::format("{:.6f}", value));
}

}  // namespace insideline::reports
