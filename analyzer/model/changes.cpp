#include "analyzer/model/changes.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <iterator>

namespace insideline {
namespace {

constexpr int most_signs = 7;
constexpr int fifths_per_enharmonic = 12;

struct ModeRow {
  std::string_view name;
  bool minor;
  Mode mode;
  int tonic_above_major;  // fifths
};

// The modes of the major scale, each on its step (common practice, no source). A name that comes twice is a second one.
constexpr std::array mode_rows{
    ModeRow{"major", false, Mode::none, 0},      ModeRow{"ionian", false, Mode::none, 0},
    ModeRow{"minor", true, Mode::none, 3},       ModeRow{"aeolian", true, Mode::none, 3},
    ModeRow{"dorian", false, Mode::dorian, 2},   ModeRow{"phrygian", false, Mode::phrygian, 4},
    ModeRow{"lydian", false, Mode::lydian, -1},  ModeRow{"mixolydian", false, Mode::mixolydian, 1},
    ModeRow{"locrian", false, Mode::locrian, 5},
};

const ModeRow& row_of(const Key& key) {
  return *std::ranges::find_if(mode_rows,
                               [&](const ModeRow& row) { return row.minor == key.minor && row.mode == key.mode; });
}

/// How far `by` moves along the line of fifths: a fifth up is 1, a minor third down 3.
int fifths_moved(const Interval& by) { return fifths_of(transposed(NoteName{}, by)); }

/// True where chord `index` and its neighbour `index + 1` touch, with no N.C. between.
bool touches_next(const Harmony& harmony, std::size_t index) {
  return harmony.chords[index].onset + harmony.chords[index].duration == harmony.chords[index + 1].onset;
}

}  // namespace

Beats bar_length(const Meter& meter) { return Beats(meter.beats) * beat_length(meter); }
Beats beat_length(const Meter& meter) { return {4, meter.unit}; }
std::string to_string(const Meter& meter) { return std::to_string(meter.beats) + '/' + std::to_string(meter.unit); }

std::string to_string(const Key& key) {
  constexpr std::array tonics = {"Fb", "Cb", "Gb", "Db", "Ab", "Eb", "Bb", "F",  "C",  "G", "D",
                                 "A",  "E",  "B",  "F#", "C#", "G#", "D#", "A#", "E#", "B#"};
  constexpr int lowest = -8;  // Fb lydian, of seven flats
  assert(key.fifths >= -7 && key.fifths <= 7 && "a key signature has at most seven signs");
  const std::string tonic = tonics.at(static_cast<std::size_t>(key.fifths + tonic_above_major(key) - lowest));
  const bool is_major = !key.minor && key.mode == Mode::none;
  return is_major ? tonic : tonic + ' ' + std::string(mode_name(key));
}

std::string_view mode_name(const Key& key) { return row_of(key).name; }

std::optional<Key> key_with_mode(int fifths, std::string_view mode) {
  const auto* const row = std::ranges::find(mode_rows, mode, &ModeRow::name);
  if (row == mode_rows.end()) return std::nullopt;
  return Key{fifths, row->minor, row->mode};
}

int tonic_above_major(const Key& key) { return row_of(key).tonic_above_major; }

int fifths_of(const NoteName& name) {
  constexpr std::array<int, 7> of_letter = {0, 2, 4, -1, 1, 3, 5};  // C D E F G A B
  constexpr int fifths_per_sharp = 7;
  return of_letter.at(static_cast<std::size_t>(name.step)) + fifths_per_sharp * name.alter;
}

Key transposed(const Key& key, const Interval& by) {
  int fifths = key.fifths + fifths_moved(by);
  while (fifths > most_signs) fifths -= fifths_per_enharmonic;
  while (fifths < -most_signs) fifths += fifths_per_enharmonic;
  return {fifths, key.minor, key.mode};
}

Changes transposed(const Changes& changes, const Interval& by) {
  Changes moved = changes;
  Interval spelled = by;
  if (changes.key) {
    moved.key = transposed(*changes.key, by);
    // Twelve fifths up the line are the same keys one letter lower.
    spelled.steps -= (moved.key->fifths - changes.key->fifths - fifths_moved(by)) / fifths_per_enharmonic;
  }
  for (ChordSpan& span : moved.spans)
    if (span.chord) span.chord = transposed(*span.chord, spelled);
  return moved;
}

Beats form_length(const Changes& changes) {
  return changes.bars.empty() ? Beats{} : changes.bars.back().onset + changes.bars.back().length;
}

Meter meter_of(const Changes& changes, const FormBar& bar) {
  return bar.meter.value_or(changes.meter.value_or(Meter{}));
}

std::optional<std::size_t> chord_index_at(const Harmony& harmony, const Beats& position) {
  const auto after = std::ranges::upper_bound(harmony.chords, position, {}, &SoundingChord::onset);
  if (after == harmony.chords.begin()) return std::nullopt;
  const auto sounding = std::prev(after);
  if (position >= sounding->onset + sounding->duration) return std::nullopt;
  return static_cast<std::size_t>(std::distance(harmony.chords.begin(), sounding));
}

std::optional<std::size_t> chord_before(const Harmony& harmony, std::size_t index) {
  while (index > 0 && touches_next(harmony, index - 1)) {
    --index;
    if (harmony.chords[index].stretch != harmony.chords[index + 1].stretch) return index;
  }
  return std::nullopt;
}

std::optional<std::size_t> chord_after(const Harmony& harmony, std::size_t index) {
  while (index + 1 < harmony.chords.size() && touches_next(harmony, index)) {
    ++index;
    if (harmony.chords[index].stretch != harmony.chords[index - 1].stretch) return index;
  }
  return std::nullopt;
}

Beats stretch_onset(const Harmony& harmony, std::size_t index) {
  while (index > 0 && harmony.chords[index - 1].stretch == harmony.chords[index].stretch) --index;
  return harmony.chords[index].onset;
}

Beats stretch_end(const Harmony& harmony, std::size_t index) {
  while (index + 1 < harmony.chords.size() && harmony.chords[index + 1].stretch == harmony.chords[index].stretch)
    ++index;
  return harmony.chords[index].onset + harmony.chords[index].duration;
}

}  // namespace insideline
