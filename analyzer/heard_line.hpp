// What every measure asks about a note or a chord, worked out once for all of them:
// the chords joined into stretches, and beside each note the stretch it is heard in.
#pragma once

#include "analyzer/analysis.hpp"

#include <array>
#include <bit>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace insideline {

/// Bit n is pitch class n, 0 = C.
using PitchClassSet = std::uint16_t;

constexpr int pitch_classes = 12;

constexpr int pitch_class_of(int midi) {
  const int above_c = midi % pitch_classes;
  return above_c < 0 ? above_c + pitch_classes : above_c;
}
constexpr bool contains(PitchClassSet set, int pitch_class) { return ((set >> pitch_class) & 1) != 0; }
/// Every member moved up by `semitones`, 0..11.
constexpr PitchClassSet moved_up(PitchClassSet set, int semitones) {
  constexpr unsigned all = (1U << pitch_classes) - 1;
  const unsigned wide = static_cast<unsigned>(set) << semitones;
  return static_cast<PitchClassSet>((wide | (wide >> pitch_classes)) & all);
}
PitchClassSet tone_set(const Chord& chord);

/// How many notes have each pitch class.
using PitchCounts = std::array<int, pitch_classes>;

/// How many notes belong to a set of pitch classes, looked up four pitch classes at a time.
class PitchHits {
 public:
  explicit PitchHits(const PitchCounts& counts) {
    for (std::size_t part = 0; part < parts; ++part)
      for (unsigned set = 1; set < sets; ++set) {
        const auto lowest = static_cast<std::size_t>(std::countr_zero(set));
        sums_[part][set] = sums_[part][set & (set - 1)] + counts[part * pitches + lowest];
      }
  }

  [[nodiscard]] int of(PitchClassSet tones) const {
    return sums_[0][tones % sets] + sums_[1][tones / sets % sets] + sums_[2][tones / sets / sets];
  }

 private:
  static constexpr std::size_t pitches = 4;
  static constexpr std::size_t parts = pitch_classes / pitches;
  static constexpr unsigned sets = 1U << pitches;

  std::array<std::array<int, sets>, parts> sums_{};
};

/// One chord for as long as it stays: written again in the next bar, it goes on.
struct Stretch {
  std::size_t first = 0;  ///< index into Harmony::chords
  std::size_t last = 0;   ///< included
  Beats onset;
  Beats end;
  PitchClassSet tones = 0;
  bool follows = false;  ///< a different chord sounds right before it, with no N.C. between
};

/// A note that is no grace note.
struct HeardNote {
  std::size_t note = 0;  ///< index into Solo::notes
  int midi = 0;
  int pitch_class = 0;
  std::int64_t onset = 0;               ///< in ticks, as many to the quarter as the solo needs
  double duration = 0.0;                ///< quarter notes
  std::optional<std::size_t> stretch;   ///< it is heard against
  std::optional<std::size_t> sounding;  ///< stretch that sounds at its onset
  Role role = Role::no_chord;
  std::size_t phrase = 0;
  std::size_t bar = 0;   ///< index into Solo::bars
  bool on_beat = false;  ///< a felt beat: in 6/8 there are two
  bool on_strong_beat = false;
  bool on_change = false;   ///< struck at the moment a new chord arrives
  bool after_rest = false;  ///< a rest of a felt beat or more goes before it
};

/// True for the notes that shares count: heard against a chord.
inline bool counts(const HeardNote& note) { return note.role != Role::no_chord && note.stretch.has_value(); }

struct HeardLine {
  std::vector<Stretch> stretches;             ///< in order
  std::vector<std::size_t> stretch_of_chord;  ///< parallel to Harmony::chords
  std::vector<HeardNote> notes;               ///< in order
};

std::vector<Stretch> join_stretches(const Harmony& harmony);

/// For each chord the first that is the same: what depends on the chord alone is worked out there.
std::vector<std::size_t> first_alike(const Harmony& harmony);

/// `labels` run parallel to `solo.notes`; `phrases` are in order and cover them.
HeardLine hear(const Solo& solo, const Harmony& harmony, std::span<const NoteLabel> labels,
               std::span<const Phrase> phrases);

}  // namespace insideline
