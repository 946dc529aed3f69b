#include "io/musicxml/jump_words.hpp"

#include "analyzer/small_letters.hpp"

#include <algorithm>
#include <array>
#include <string>

namespace insideline::io {
namespace {

enum class Order { da_capo, dal_segno, to_coda, coda, fine };

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
    JumpWords{"tocoda", Order::to_coda},     JumpWords{"coda", Order::coda},
    JumpWords{"fine", Order::fine},
};

struct EndingWord {
  std::string_view word;
  int pass;
};

// As printed, without blanks and full stops.
constexpr std::array ending_words = {
    EndingWord{"1", 1}, EndingWord{"first", 1}, EndingWord{"2", 2}, EndingWord{"second", 2},
    EndingWord{"3", 3}, EndingWord{"third", 3}, EndingWord{"4", 4}, EndingWord{"fourth", 4},
};

/// "D.C. al 2nd ending" is the letters "dc" and 2.
struct JumpPhrase {
  std::string letters;
  int last_ending = 0;
};

bool is_figure(char c) { return c >= '0' && c <= '9'; }

JumpPhrase phrase_in(std::string_view words) {
  constexpr std::size_t longest = 40;
  if (words.size() > longest) return {};
  std::string text;
  for (const char written : words) {
    const char c = small_letter(written);
    if ((c >= 'a' && c <= 'z') || is_figure(c)) text.push_back(c);
  }
  JumpPhrase phrase{text};
  const std::size_t al = text.rfind("al");
  if (al != std::string::npos && text.find("end", al) != std::string::npos) {
    const std::string_view after = std::string_view(text).substr(al + 2);
    const auto* const found =
        std::ranges::find_if(ending_words, [&](const EndingWord& ending) { return after.starts_with(ending.word); });
    if (found != ending_words.end()) phrase = {text.substr(0, al), found->pass};
  }
  std::erase_if(phrase.letters, is_figure);
  return phrase;
}

}  // namespace

int last_ending_in(std::string_view words) { return phrase_in(words).last_ending; }

bool read_jump_words(std::string_view words, RoadSigns& signs) {
  const JumpPhrase phrase = phrase_in(words);
  const auto* const found = std::ranges::find(jump_words, std::string_view(phrase.letters), &JumpWords::letters);
  if (found == jump_words.end()) return false;
  if (phrase.last_ending > 0) signs.last_ending = phrase.last_ending;
  switch (found->order) {
    case Order::da_capo: signs.da_capo = true; break;
    case Order::dal_segno: signs.dal_segno = "segno"; break;
    case Order::to_coda: signs.to_coda = "coda"; break;
    case Order::coda: signs.coda_printed = true; break;
    case Order::fine: signs.fine = true; break;
  }
  return true;
}

}  // namespace insideline::io
