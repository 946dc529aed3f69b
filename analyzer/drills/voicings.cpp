#include "analyzer/drills/voicings.hpp"

#include <algorithm>
#include <cstdlib>
#include <limits>
#include <map>
#include <utility>

namespace insideline {
namespace {

constexpr int lowest_bass = 36;
constexpr int lowest_voice = 52;
constexpr int highest_voice = 76;

using Voices = std::array<int, upper_voices>;

/// Every way to place the four, the lowest first, no wider than `widest` and no two on one pitch.
std::vector<Voices> placings(const Voices& classes, int widest) {
  std::vector<Voices> all;
  constexpr int choices = 2;  // octaves in the register
  for (int lot = 0; lot < 1 << upper_voices; ++lot) {
    Voices voices{};
    for (std::size_t i = 0; i < voices.size(); ++i) {
      const int above =
          (classes.at(i) - lowest_voice % semitones_in_octave + semitones_in_octave) % semitones_in_octave;
      voices.at(i) = lowest_voice + above + ((lot >> i) % choices) * semitones_in_octave;
    }
    std::ranges::sort(voices);
    const bool fits = voices.back() <= highest_voice && voices.back() - voices.front() <= widest;
    const bool differ = std::ranges::adjacent_find(voices) == voices.end();
    if (fits && differ && std::ranges::find(all, voices) == all.end()) all.push_back(voices);
  }
  return all;
}

/// Within a tenth; a chord of two tones, each of them twice, takes more.
std::vector<Voices> close_placings(const Voices& classes) {
  constexpr int tenth = 16;
  std::vector<Voices> close = placings(classes, tenth);
  return close.empty() ? placings(classes, highest_voice - lowest_voice) : close;
}

int voices_motion(const Voices& from, const Voices& to) {
  int motion = 0;
  for (std::size_t voice = 0; voice < from.size(); ++voice) motion += std::abs(to.at(voice) - from.at(voice));
  return motion;
}

struct Placed {
  int motion = std::numeric_limits<int>::max();
  std::size_t from = 0;
};

/// How far the voicing lies from the middle of the register; decides among first chords that lead on equally well.
int off_middle(const Voices& voices) { return std::abs(voices.front() + voices.back() - lowest_voice - highest_voice); }

}  // namespace

std::array<int, upper_voices> voiced_classes(const Chord& chord) {
  std::vector<int> classes;
  const auto add = [&](const Degree& degree) {
    const int sounding = pitch_class_at(chord, degree);
    if (std::ranges::find(classes, sounding) == classes.end()) classes.push_back(sounding);
  };
  for (const Degree& guide : guide_tones(chord)) add(guide);
  constexpr int seventh = 7;
  for (auto tone = chord.tones.rbegin(); tone != chord.tones.rend(); ++tone)
    if (tone->number > seventh) add(*tone);
  for (const Degree& tone : chord.tones)
    if (tone.number == 5) add(tone);
  for (const Degree& tone : chord.tones) add(tone);
  std::array<int, upper_voices> four{};
  for (std::size_t i = 0; i < four.size(); ++i)
    four.at(i) = i < classes.size() ? classes[i]
                                    : pitch_class_at(chord, chord.tones.at((i - classes.size()) % chord.tones.size()));
  return four;
}

int motion_of(const Voicing& from, const Voicing& to) { return voices_motion(from.voices, to.voices); }

std::vector<Voicing> smooth_voicings(const std::vector<SoundingChord>& chords) {
  std::map<Voices, std::vector<Voices>> known;
  std::vector<const std::vector<Voices>*> sets;
  std::vector<std::vector<Placed>> all;
  for (const SoundingChord& sounding : chords) {
    const Voices classes = voiced_classes(sounding.chord);
    auto found = known.find(classes);
    if (found == known.end()) found = known.emplace(classes, close_placings(classes)).first;
    const std::vector<Voices>& set = found->second;
    std::vector<Placed> placed(set.size());
    for (std::size_t here = 0; here < set.size(); ++here) {
      if (sets.empty()) placed[here].motion = 0;
      for (std::size_t before = 0; !sets.empty() && before < sets.back()->size(); ++before) {
        const int motion = all.back()[before].motion + voices_motion((*sets.back())[before], set[here]);
        if (motion < placed[here].motion) placed[here] = {motion, before};
      }
    }
    all.push_back(std::move(placed));
    sets.push_back(&set);
  }
  std::vector<Voicing> voicings(chords.size());
  if (chords.empty()) return voicings;
  std::size_t at = 0;
  for (std::size_t i = 0; i < all.back().size(); ++i) {
    const auto rank = [&](std::size_t place) {
      return std::pair(all.back()[place].motion, off_middle((*sets.back())[place]));
    };
    if (rank(i) < rank(at)) at = i;
  }
  for (std::size_t i = chords.size(); i-- > 0;) {
    const Chord& chord = chords[i].chord;
    voicings[i] = {lowest_bass + pitch_class(chord.bass.value_or(chord.root)), (*sets[i])[at]};
    at = all[i][at].from;
  }
  return voicings;
}

}  // namespace insideline
