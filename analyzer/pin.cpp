#include "analyzer/pin.hpp"

#include "analyzer/model/solo.hpp"

#include <algorithm>

namespace insideline {

std::optional<std::size_t> pinned_note(const Solo& solo, const Pin& pin) {
  std::size_t graces = 0;
  for (auto note = std::ranges::lower_bound(solo.notes, pin.onset, {}, &Note::onset);
       note != solo.notes.end() && note->onset == pin.onset; ++note) {
    if (note->grace) ++graces;
    if (note->grace ? graces == pin.grace : pin.grace == 0) return static_cast<std::size_t>(note - solo.notes.begin());
  }
  return std::nullopt;
}

std::string beat_text(const Beats& beat) {
  constexpr int thousand = 1000;  // three places are enough for an eighth of a beat
  const Beats parts = beat * thousand;
  if (parts.denominator() != 1 || beat < Beats(0)) return to_string(beat);
  const auto whole = parts.numerator() / thousand;
  auto rest = std::to_string(thousand + parts.numerator() % thousand).substr(1);
  while (rest.ends_with('0')) rest.pop_back();
  return std::to_string(whole) + (rest.empty() ? "" : "." + rest);
}

}  // namespace insideline
