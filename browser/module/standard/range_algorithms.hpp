// The algorithms of std::ranges that the C++ library of Debian's emscripten lacks (libc++ 13; version 15 has them): as
// much of each as our sources use, on top of the older ones. Only the build for browsers sees it.
#pragma once

#include_next <algorithm>
#include <functional>
#include <initializer_list>
#include <iterator>
#include <ranges>
#include <utility>

namespace std::ranges {

/// What is called with a range can be called with its two ends: OnEnds::call(first, last, ...).
template <typename OnEnds>
struct WithRange {
  template <std::input_or_output_iterator I, std::sentinel_for<I> S, typename... Rest>
  constexpr auto operator()(I first, S last, Rest&&... rest) const {
    return OnEnds::call(first, last, std::forward<Rest>(rest)...);
  }
  template <range R, typename... Rest>
  constexpr auto operator()(R&& r, Rest&&... rest) const {
    return OnEnds::call(begin(r), end(r), std::forward<Rest>(rest)...);
  }
  // Where the comparison is given as {}.
  template <std::input_or_output_iterator I, std::sentinel_for<I> S, typename P>
  constexpr auto operator()(I first, S last, less by, P of) const {
    return OnEnds::call(first, last, by, of);
  }
  template <range R, typename P>
  constexpr auto operator()(R&& r, less by, P of) const {
    return OnEnds::call(begin(r), end(r), by, of);
  }
  template <range R, typename T, typename P>
  constexpr auto operator()(R&& r, const T& value, less by, P of) const {
    return OnEnds::call(begin(r), end(r), value, by, of);
  }
};

template <typename By, typename Of>
constexpr auto compared(By& by, Of& of) {
  return [&](const auto& a, const auto& b) { return std::invoke(by, std::invoke(of, a), std::invoke(of, b)); };
}
template <typename Is, typename Of>
constexpr auto tested(Is& is, Of& of) {
  return [&](const auto& a) { return static_cast<bool>(std::invoke(is, std::invoke(of, a))); };
}

struct FindIf {
  template <typename I, typename Is, typename Of = identity>
  static constexpr I call(I first, I last, Is is, Of of = {}) {
    return std::find_if(first, last, tested(is, of));
  }
};
inline constexpr WithRange<FindIf> find_if;

struct Find {
  template <typename I, typename T, typename Of = identity>
  static constexpr I call(I first, I last, const T& value, Of of = {}) {
    for (; first != last; ++first)
      if (std::invoke(of, *first) == value) break;
    return first;
  }
};
inline constexpr WithRange<Find> find;

struct AnyOf {
  template <typename I, typename Is, typename Of = identity>
  static constexpr bool call(I first, I last, Is is, Of of = {}) {
    return std::any_of(first, last, tested(is, of));
  }
};
inline constexpr WithRange<AnyOf> any_of;

struct AllOf {
  template <typename I, typename Is, typename Of = identity>
  static constexpr bool call(I first, I last, Is is, Of of = {}) {
    return std::all_of(first, last, tested(is, of));
  }
};
inline constexpr WithRange<AllOf> all_of;

struct NoneOf {
  template <typename I, typename Is, typename Of = identity>
  static constexpr bool call(I first, I last, Is is, Of of = {}) {
    return std::none_of(first, last, tested(is, of));
  }
};
inline constexpr WithRange<NoneOf> none_of;

struct CountIf {
  template <typename I, typename Is, typename Of = identity>
  static constexpr auto call(I first, I last, Is is, Of of = {}) {
    return std::count_if(first, last, tested(is, of));
  }
};
inline constexpr WithRange<CountIf> count_if;

struct Count {
  template <typename I, typename T, typename Of = identity>
  static constexpr auto call(I first, I last, const T& value, Of of = {}) {
    return std::count_if(first, last, [&](const auto& a) { return std::invoke(of, a) == value; });
  }
};
inline constexpr WithRange<Count> count;

struct ForEach {
  template <typename I, typename Do>
  static constexpr void call(I first, I last, Do act) {
    std::for_each(first, last, std::ref(act));
  }
};
inline constexpr WithRange<ForEach> for_each;

struct Distance {
  template <typename I>
  static constexpr auto call(I first, I last) {
    return std::distance(first, last);
  }
};
inline constexpr WithRange<Distance> distance;

struct Sort {
  template <typename I, typename By = less, typename Of = identity>
  static constexpr void call(I first, I last, By by = {}, Of of = {}) {
    std::sort(first, last, compared(by, of));
  }
};
inline constexpr WithRange<Sort> sort;

struct StableSort {
  template <typename I, typename By = less, typename Of = identity>
  static constexpr void call(I first, I last, By by = {}, Of of = {}) {
    std::stable_sort(first, last, compared(by, of));
  }
};
inline constexpr WithRange<StableSort> stable_sort;

struct IsSorted {
  template <typename I, typename By = less, typename Of = identity>
  static constexpr bool call(I first, I last, By by = {}, Of of = {}) {
    return std::is_sorted(first, last, compared(by, of));
  }
};
inline constexpr WithRange<IsSorted> is_sorted;

/// Called with ends and a middle, or with a range and a middle.
struct NthElement {
  template <range R, typename I>
  constexpr void operator()(R&& r, I middle) const {
    std::nth_element(begin(r), middle, end(r));
  }
};
inline constexpr NthElement nth_element;

struct LowerBound {
  template <typename I, typename T, typename By = less, typename Of = identity>
  static constexpr I call(I first, I last, const T& value, By by = {}, Of of = {}) {
    return std::lower_bound(first, last, value,
                            [&](const auto& a, const T& b) { return std::invoke(by, std::invoke(of, a), b); });
  }
};
inline constexpr WithRange<LowerBound> lower_bound;

struct UpperBound {
  template <typename I, typename T, typename By = less, typename Of = identity>
  static constexpr I call(I first, I last, const T& value, By by = {}, Of of = {}) {
    return std::upper_bound(first, last, value,
                            [&](const T& a, const auto& b) { return std::invoke(by, a, std::invoke(of, b)); });
  }
};
inline constexpr WithRange<UpperBound> upper_bound;

struct BinarySearch {
  template <typename I, typename T>
  static constexpr bool call(I first, I last, const T& value) {
    return std::binary_search(first, last, value);
  }
};
inline constexpr WithRange<BinarySearch> binary_search;

struct MinElement {
  template <typename I, typename By = less, typename Of = identity>
  static constexpr I call(I first, I last, By by = {}, Of of = {}) {
    return std::min_element(first, last, compared(by, of));
  }
};
inline constexpr WithRange<MinElement> min_element;

struct MaxElement {  // the first of several, as everywhere
  template <typename I, typename By = less, typename Of = identity>
  static constexpr I call(I first, I last, By by = {}, Of of = {}) {
    return std::max_element(first, last, compared(by, of));
  }
};
inline constexpr WithRange<MaxElement> max_element;

template <typename T>
struct Extremes {
  T min;
  T max;
};
struct MinMaxElement {  // the first of the least, the last of the greatest, as everywhere
  template <typename I, typename By = less, typename Of = identity>
  static constexpr Extremes<I> call(I first, I last, By by = {}, Of of = {}) {
    const auto [least, greatest] = std::minmax_element(first, last, compared(by, of));
    return {least, greatest};
  }
};
inline constexpr WithRange<MinMaxElement> minmax_element;

struct MinMax {
  template <range R>
  constexpr auto operator()(R&& r) const {
    const auto [least, greatest] = std::minmax_element(begin(r), end(r));
    return Extremes<range_value_t<R>>{*least, *greatest};
  }
};
inline constexpr MinMax minmax;

struct Min {
  template <typename T, typename By = less, typename Of = identity>
  constexpr T operator()(std::initializer_list<T> values, By by = {}, Of of = {}) const {
    return *MinElement::call(values.begin(), values.end(), by, of);
  }
  template <range R, typename By = less, typename Of = identity>
  constexpr range_value_t<R> operator()(R&& r, By by = {}, Of of = {}) const {
    return *MinElement::call(begin(r), end(r), by, of);
  }
};
inline constexpr Min min;

struct Max {
  template <range R, typename By = less, typename Of = identity>
  constexpr range_value_t<R> operator()(R&& r, By by = {}, Of of = {}) const {
    return *MaxElement::call(begin(r), end(r), by, of);
  }
};
inline constexpr Max max;

struct AdjacentFind {
  template <typename I, typename Is = equal_to>
  static constexpr I call(I first, I last, Is is = {}) {
    return std::adjacent_find(first, last, is);
  }
};
inline constexpr WithRange<AdjacentFind> adjacent_find;

struct Equal {
  template <std::input_or_output_iterator I, std::input_or_output_iterator K>
  constexpr bool operator()(I first, I last, K other, K other_last) const {
    return std::equal(first, last, other, other_last);
  }
  template <range R, range Q, typename Is = equal_to, typename Of = identity, typename OfOther = identity>
  constexpr bool operator()(R&& r, Q&& q, Is is = {}, Of of = {}, OfOther of_other = {}) const {
    return std::equal(begin(r), end(r), begin(q), end(q), [&](const auto& a, const auto& b) {
      return std::invoke(is, std::invoke(of, a), std::invoke(of_other, b));
    });
  }
};
inline constexpr Equal equal;

template <typename I, typename K>
struct TwoPlaces {
  I in1;
  K in2;
};
struct Mismatch {
  template <range R, range Q>
  constexpr auto operator()(R&& r, Q&& q) const {
    const auto [in1, in2] = std::mismatch(begin(r), end(r), begin(q), end(q));
    return TwoPlaces<iterator_t<R>, iterator_t<Q>>{in1, in2};
  }
};
inline constexpr Mismatch mismatch;

struct Includes {
  template <range R, range Q>
  constexpr bool operator()(R&& r, Q&& q) const {
    return std::includes(begin(r), end(r), begin(q), end(q));
  }
};
inline constexpr Includes includes;

struct FindFirstOf {
  template <range R, range Q, typename Is = equal_to, typename Of = identity>
  constexpr auto operator()(R&& r, Q&& q, Is is = {}, Of of = {}) const {
    return std::find_first_of(begin(r), end(r), begin(q), end(q),
                              [&](const auto& a, const auto& b) { return std::invoke(is, std::invoke(of, a), b); });
  }
};
inline constexpr FindFirstOf find_first_of;

struct Copy {
  template <typename I, typename O>
  static constexpr O call(I first, I last, O to) {
    return std::copy(first, last, to);
  }
};
inline constexpr WithRange<Copy> copy;

struct CopyIf {
  template <typename I, typename O, typename Is, typename Of = identity>
  static constexpr O call(I first, I last, O to, Is is, Of of = {}) {
    return std::copy_if(first, last, to, tested(is, of));
  }
};
inline constexpr WithRange<CopyIf> copy_if;

struct MoveAll {
  template <typename I, typename O>
  static constexpr O call(I first, I last, O to) {
    return std::move(first, last, to);
  }
};
inline constexpr WithRange<MoveAll> move;

struct Transform {
  template <typename I, typename O, typename How, typename Of = identity>
  static constexpr O call(I first, I last, O to, How how, Of of = {}) {
    return std::transform(first, last, to, [&](auto&& a) { return std::invoke(how, std::invoke(of, a)); });
  }
};
inline constexpr WithRange<Transform> transform;

struct Replace {
  template <typename I, typename T>
  static constexpr void call(I first, I last, const T& old_value, const T& new_value) {
    std::replace(first, last, old_value, new_value);
  }
};
inline constexpr WithRange<Replace> replace;

struct ReplaceIf {
  template <typename I, typename Is, typename T>
  static constexpr void call(I first, I last, Is is, const T& new_value) {
    std::replace_if(first, last, is, new_value);
  }
};
inline constexpr WithRange<ReplaceIf> replace_if;

struct Reverse {
  template <typename I>
  static constexpr void call(I first, I last) {
    std::reverse(first, last);
  }
};
inline constexpr WithRange<Reverse> reverse;

struct ReverseCopy {
  template <typename I, typename O>
  static constexpr O call(I first, I last, O to) {
    return std::reverse_copy(first, last, to);
  }
};
inline constexpr WithRange<ReverseCopy> reverse_copy;

}  // namespace std::ranges
