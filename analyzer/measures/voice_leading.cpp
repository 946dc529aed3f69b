#include "analyzer/measures/voice_leading.hpp"

#include <algorithm>
#include <cassert>
#include <cstdlib>
#include <limits>
#include <optional>
#include <utility>

namespace insideline {
namespace {

constexpr int tritone = 6;
[[maybe_unused]] constexpr std::size_t most_tones = 7;  // asserted only

std::vector<NoteName> names_of(const Chord& chord) {
  std::vector<NoteName> names;
  for (const Degree& tone : chord.tones) names.push_back(note_at(chord.root, tone));
  return names;
}

/// The assignment of `few` to `many` that costs least, found over the sets of tones already taken.
class Pairing {
 public:
  Pairing(std::vector<NoteName> few, std::vector<NoteName> many)
      : few_(std::move(few)), many_(std::move(many)), known_(few_.size() << many_.size()) {}

  struct Best {
    int semitones = 0;
    int ways = 1;
  };

  /// For the voices from `voice` on, with the tones in `taken` no longer free.
  Best best(std::size_t voice, unsigned taken) {
    if (voice == few_.size()) return {};
    auto& known = known_[(voice << many_.size()) | taken];
    if (known) return *known;
    Best found{.semitones = std::numeric_limits<int>::max(), .ways = 0};
    for (std::size_t tone = 0; tone < many_.size(); ++tone) {
      if ((taken >> tone & 1U) != 0) continue;
      const Best rest = best(voice + 1, taken | 1U << tone);
      const int semitones = rest.semitones + cost(voice, tone);
      if (semitones < found.semitones) found = {.semitones = semitones, .ways = 0};
      if (semitones == found.semitones) found.ways += rest.ways;
    }
    known = found;
    return found;
  }

  /// The tone each voice takes.
  std::vector<std::size_t> choice() {
    std::vector<std::size_t> taken_by;
    unsigned taken = 0;
    for (std::size_t voice = 0; voice < few_.size(); ++voice) {
      const int wanted = best(voice, taken).semitones;
      std::size_t tone = 0;
      while ((taken >> tone & 1U) != 0 || best(voice + 1, taken | 1U << tone).semitones + cost(voice, tone) != wanted)
        ++tone;
      taken_by.push_back(tone);
      taken |= 1U << tone;
    }
    return taken_by;
  }

 private:
  int cost(std::size_t voice, std::size_t tone) const {
    return std::abs(shortest_way(pitch_class(few_[voice]), pitch_class(many_[tone])));
  }

  std::vector<NoteName> few_;
  std::vector<NoteName> many_;
  std::vector<std::optional<Best>> known_;
};

}  // namespace

int shortest_way(int from_pitch_class, int to_pitch_class) {
  const int up = (to_pitch_class - from_pitch_class + semitones_in_octave) % semitones_in_octave;
  return up > tritone ? up - semitones_in_octave : up;
}

VoiceLeading least_motion(const Chord& from, const Chord& to) {
  const std::vector<NoteName> left = names_of(from);
  const std::vector<NoteName> right = names_of(to);
  assert(left.size() <= most_tones && right.size() <= most_tones && "a stack of thirds has seven tones");
  const bool fewer_left = left.size() <= right.size();
  Pairing pairing(fewer_left ? left : right, fewer_left ? right : left);
  const auto best = pairing.best(0, 0);
  VoiceLeading leading{.moves = {}, .semitones = best.semitones, .pairings = best.ways};
  const std::vector<std::size_t> taken = pairing.choice();
  for (std::size_t voice = 0; voice < taken.size(); ++voice) {
    const NoteName& a = left[fewer_left ? voice : taken[voice]];
    const NoteName& b = right[fewer_left ? taken[voice] : voice];
    leading.moves.push_back({.from = a, .to = b, .semitones = shortest_way(pitch_class(a), pitch_class(b))});
  }
  if (!fewer_left) {
    const auto place = [&](const VoiceMove& move) { return std::ranges::find(left, move.from); };
    std::ranges::sort(leading.moves, {}, place);
  }
  return leading;
}

}  // namespace insideline
