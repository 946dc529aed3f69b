// Capitals that make no difference: in names of chords, sections, parts and files. The letters A to Z alone, whatever
// the language of the machine is.
#pragma once

#include <algorithm>
#include <string>
#include <string_view>

namespace insideline {

constexpr char small_letter(char letter) {
  return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
}

inline std::string in_small_letters(std::string_view text) {
  std::string small(text);
  std::ranges::transform(small, small.begin(), small_letter);
  return small;
}

inline bool same_but_for_capitals(std::string_view a, std::string_view b) {
  return std::ranges::equal(a, b, {}, small_letter, small_letter);
}

}  // namespace insideline
