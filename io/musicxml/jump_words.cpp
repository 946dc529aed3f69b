#include "io/musicxml/jump_words.hpp"

#include <algorithm>
#include <array>
#include <string>

namespace insideline::io {
namespace {

enum class Order { da_capo, dal_segno, to_coda, fine };

struct JumpWords {
  std::string_view letters;  ///< lower case, nothing but letters
  Order order;
};

// Common practice, no source: how charts abbreviate the Italian.
constexpr std::array jump_words = {
    JumpWords{"dc", Order::da_capo},         JumpWords{"dacapo", Order::da_capo},
    JumpWords{"dcalfine", Order::da_capo},   JumpWords{"dacapoalfine", Order::da_capo},
    JumpWords{"dcalcoda", Order::da_capo},   JumpWords{"dacapoalcoda", Order::da_capo},
    JumpWords{"ds", Order::dal_segno},       JumpWords{"dalsegno", Order::dal_segno},
    JumpWords{"dsalfine", Order::dal_segno}, JumpWords{"dalsegnoalfine", Order::dal_segno},
    JumpWords{"dsalcoda", Order::dal_segno}, JumpWords{"dalsegnoalcoda", Order::dal_segno},
    JumpWords{"tocoda", Order::to_coda},     JumpWords{"fine", Order::fine},
};

std::string letters_of(std::string_view words) {
  std::string letters;
  for (const char c : words) {
    if (c >= 'A' && c <= 'Z') letters.push_back(static_cast<char>(c - 'A' + 'a'));
    if (c >= 'a' && c <= 'z') letters.push_back(c);
  }
  return letters;
}

}  // namespace

bool read_jump_words(std::string_view words, RoadSigns& signs) {
  constexpr std::size_t longest = 40;
  if (words.size() > longest) return false;
  const std::string letters = letters_of(words);
  const auto* const found = std::ranges::find(jump_words, letters, &JumpWords::letters);
  if (found == jump_words.end()) return false;
  switch (found->order) {
    case Order::da_capo: signs.da_capo = true; break;
    case Order::dal_segno: signs.dal_segno = "segno"; break;
    case Order::to_coda: signs.to_coda = "coda"; break;
    case Order::fine: signs.fine = true; break;
  }
  return true;
}

}  // namespace insideline::io
