#include "analyzer/model/beats.hpp"

#include <cassert>
#include <charconv>
#include <limits>
#include <numeric>
#include <stdexcept>

namespace insideline {
namespace {

__extension__ using Wide = __int128;  // holds any product of two 64-bit numbers

Wide wide_gcd(Wide a, Wide b) {
  if (a < 0) a = -a;
  while (b != 0) {
    const Wide rest = a % b;
    a = b;
    b = rest;
  }
  return a;
}

bool fits(Wide value) {
  constexpr Wide largest = std::numeric_limits<std::int64_t>::max();
  return value >= -largest && value <= largest;
}

std::int64_t narrow(Wide value) {
  if (!fits(value)) throw std::overflow_error("musical time does not fit 64 bits");
  return static_cast<std::int64_t>(value);
}

Beats reduced(Wide numerator, Wide denominator) {
  assert(denominator != 0 && "a fraction of a quarter note has a denominator");
  if (denominator < 0) {
    numerator = -numerator;
    denominator = -denominator;
  }
  const Wide divisor = wide_gcd(numerator, denominator);
  return {narrow(numerator / divisor), narrow(denominator / divisor)};
}

std::optional<std::int64_t> parse_whole(std::string_view text) {
  std::int64_t value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size() || !fits(value)) return std::nullopt;
  return value;
}

std::optional<Beats> parse_decimal(std::string_view whole, std::string_view places) {
  constexpr std::size_t most_places = 9;
  const bool negative = whole.starts_with('-');
  if (places.empty() || places.size() > most_places || places.starts_with('-')) return std::nullopt;
  const auto units = parse_whole(whole);
  const auto parts = parse_whole(places);
  if (!units || !parts) return std::nullopt;
  std::int64_t scale = 1;
  for (std::size_t i = 0; i < places.size(); ++i) scale *= 10;
  const Wide whole_parts = static_cast<Wide>(*units) * scale;
  const Wide numerator = negative ? whole_parts - *parts : whole_parts + *parts;
  if (!fits(numerator)) return std::nullopt;
  return Beats(narrow(numerator), scale);
}

}  // namespace

Beats Beats::in_lowest_terms(std::int64_t numerator, std::int64_t denominator) {
  assert(denominator != 0 && "a fraction of a quarter note has a denominator");
  const std::int64_t divisor = denominator < 0 ? -std::gcd(numerator, denominator) : std::gcd(numerator, denominator);
  Beats time(numerator / divisor);
  time.denominator_ = denominator / divisor;
  return time;
}

Beats Beats::sum_of_fractions(const Beats& a, const Beats& b) {
  std::int64_t left = 0;
  std::int64_t right = 0;
  std::int64_t sum = 0;
  std::int64_t denominator = 0;
  if (a.denominator_ == b.denominator_ && !__builtin_add_overflow(a.numerator_, b.numerator_, &sum))
    return {sum, a.denominator_};
  const bool too_large = __builtin_mul_overflow(a.numerator_, b.denominator_, &left) ||
                         __builtin_mul_overflow(b.numerator_, a.denominator_, &right) ||
                         __builtin_add_overflow(left, right, &sum) ||
                         __builtin_mul_overflow(a.denominator_, b.denominator_, &denominator);
  if (!too_large) return {sum, denominator};
  const Wide numerator =
      static_cast<Wide>(a.numerator_) * b.denominator_ + static_cast<Wide>(b.numerator_) * a.denominator_;
  return reduced(numerator, static_cast<Wide>(a.denominator_) * b.denominator_);
}

Beats Beats::product_of_fractions(std::int64_t a, std::int64_t b, std::int64_t c, std::int64_t d) {
  std::int64_t numerator = 0;
  std::int64_t denominator = 0;
  if (!__builtin_mul_overflow(a, b, &numerator) && !__builtin_mul_overflow(c, d, &denominator))
    return {numerator, denominator};
  return reduced(static_cast<Wide>(a) * b, static_cast<Wide>(c) * d);
}

std::int64_t whole_units(const Beats& position, const Beats& unit) {
  assert(unit > Beats{} && "a unit of time is longer than nothing");
  std::int64_t numerator = 0;
  std::int64_t denominator = 0;
  if (__builtin_mul_overflow(position.numerator(), unit.denominator(), &numerator) ||
      __builtin_mul_overflow(position.denominator(), unit.numerator(), &denominator)) {
    const Beats ratio = position / unit;
    numerator = ratio.numerator();
    denominator = ratio.denominator();
  }
  const std::int64_t quotient = numerator / denominator;
  const bool below_zero = numerator < 0 && numerator % denominator != 0;
  return below_zero ? quotient - 1 : quotient;
}

Beats remainder_within(const Beats& position, const Beats& unit) {
  return position - Beats(whole_units(position, unit)) * unit;
}

double to_double(const Beats& time) {
  return static_cast<double>(time.numerator()) / static_cast<double>(time.denominator());
}

std::string to_string(const Beats& time) {
  const std::string whole = std::to_string(time.numerator());
  return time.denominator() == 1 ? whole : whole + '/' + std::to_string(time.denominator());
}

std::optional<Beats> parse_beats(std::string_view text) {
  if (const auto slash = text.find('/'); slash != std::string_view::npos) {
    const auto numerator = parse_whole(text.substr(0, slash));
    const auto denominator = parse_whole(text.substr(slash + 1));
    if (!numerator || !denominator || *denominator <= 0) return std::nullopt;
    return Beats(*numerator, *denominator);
  }
  if (const auto point = text.find('.'); point != std::string_view::npos)
    return parse_decimal(text.substr(0, point), text.substr(point + 1));
  const auto quarters = parse_whole(text);
  if (!quarters) return std::nullopt;
  return Beats(*quarters);
}

}  // namespace insideline
