// Musical time: an exact fraction of a quarter note. Nothing here is a
// floating-point number, so a triplet is a triplet and comparisons are exact.
#pragma once

#include <algorithm>
#include <bit>
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace insideline {

/// A span or a position in quarter notes.
/// Invariant: the fraction is in lowest terms and the denominator is above zero.
/// Arithmetic that leaves 64 bits throws std::overflow_error.
/// What nearly every time in music needs, whole quarters and their halves, is done in place and without a division; the
/// rest, triplets and their kin, is in beats.cpp.
class Beats {
 public:
  constexpr Beats() = default;
  constexpr Beats(std::int64_t quarters)
      : numerator_(quarters) {}  // NOLINT(google-explicit-constructor): 4 is a length
  /// `denominator` must not be zero.
  Beats(std::int64_t numerator, std::int64_t denominator) {
    *this = halves(denominator) ? in_halves(numerator, denominator) : in_lowest_terms(numerator, denominator);
  }

  [[nodiscard]] constexpr std::int64_t numerator() const { return numerator_; }
  [[nodiscard]] constexpr std::int64_t denominator() const { return denominator_; }

  friend bool operator==(const Beats& a, const Beats& b) = default;
  friend std::strong_ordering operator<=>(const Beats& a, const Beats& b) {
    if (a.denominator_ == b.denominator_) return a.numerator_ <=> b.numerator_;
    return Wide{a.numerator_} * b.denominator_ <=> Wide{b.numerator_} * a.denominator_;
  }

  Beats& operator+=(const Beats& other) {
    std::int64_t sum = 0;
    if (denominator_ == 1 && other.denominator_ == 1 && !__builtin_add_overflow(numerator_, other.numerator_, &sum))
      return *this = Beats(sum);
    if (halves(denominator_) && halves(other.denominator_) && sum_of_halves(*this, other, sum))
      return *this = in_halves(sum, std::max(denominator_, other.denominator_));
    return *this = sum_of_fractions(*this, other);
  }
  Beats& operator-=(const Beats& other) { return *this += -other; }
  Beats& operator*=(const Beats& other) {
    const bool whole = denominator_ == 1 && other.denominator_ == 1;
    if (std::int64_t product = 0; whole && !__builtin_mul_overflow(numerator_, other.numerator_, &product))
      return *this = Beats(product);
    return *this = product_of_fractions(numerator_, other.numerator_, denominator_, other.denominator_);
  }
  /// `other` must not be zero.
  Beats& operator/=(const Beats& other) {
    return *this = product_of_fractions(numerator_, other.denominator_, denominator_, other.numerator_);
  }

  friend Beats operator+(Beats a, const Beats& b) { return a += b; }
  friend Beats operator-(Beats a, const Beats& b) { return a -= b; }
  friend Beats operator*(Beats a, const Beats& b) { return a *= b; }
  friend Beats operator/(Beats a, const Beats& b) { return a /= b; }
  friend Beats operator-(Beats a) {
    a.numerator_ = -a.numerator_;  // still in lowest terms
    return a;
  }

 private:
  __extension__ using Wide = __int128;  // holds any product of two 64-bit numbers

  /// Whether a quarter note divided so is divided by halving alone.
  static constexpr bool halves(std::int64_t denominator) {
    return denominator > 0 && (denominator & (denominator - 1)) == 0;
  }
  static constexpr int trailing_zeros(std::int64_t value) {
    return std::countr_zero(static_cast<std::uint64_t>(value));
  }
  static constexpr Beats in_halves(std::int64_t numerator, std::int64_t denominator) {
    const int halvings = std::min(trailing_zeros(numerator), trailing_zeros(denominator));
    Beats time(numerator >> halvings);
    time.denominator_ = denominator >> halvings;
    return time;
  }
  /// The numerator over the larger of two denominators that halve; false where it leaves 64 bits.
  static bool sum_of_halves(const Beats& a, const Beats& b, std::int64_t& sum) {
    const std::int64_t denominator = std::max(a.denominator_, b.denominator_);
    std::int64_t left = 0;
    std::int64_t right = 0;
    return !__builtin_mul_overflow(a.numerator_, denominator >> trailing_zeros(a.denominator_), &left) &&
           !__builtin_mul_overflow(b.numerator_, denominator >> trailing_zeros(b.denominator_), &right) &&
           !__builtin_add_overflow(left, right, &sum);
  }
  static Beats in_lowest_terms(std::int64_t numerator, std::int64_t denominator);
  static Beats sum_of_fractions(const Beats& a, const Beats& b);
  /// (a * b) / (c * d)
  static Beats product_of_fractions(std::int64_t a, std::int64_t b, std::int64_t c, std::int64_t d);

  std::int64_t numerator_ = 0;
  std::int64_t denominator_ = 1;
};

/// The largest whole number of `unit`s that fit below or at `position`.
/// `unit` must be above zero.
std::int64_t whole_units(const Beats& position, const Beats& unit);

/// What is left of `position` above the last whole `unit`: 0 <= result < unit.
Beats remainder_within(const Beats& position, const Beats& unit);

double to_double(const Beats& time);

/// "0", "1/2", "-22/3".
std::string to_string(const Beats& time);

/// Reads what to_string writes, and decimals with up to nine places ("0.25").
/// None for anything else, including a fraction that leaves 64 bits.
std::optional<Beats> parse_beats(std::string_view text);

}  // namespace insideline
