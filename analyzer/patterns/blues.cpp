#include "analyzer/patterns/blues.hpp"

#include "analyzer/harmony/tensions.hpp"
#include "analyzer/patterns/moves.hpp"
#include "analyzer/tritone_substitutes.hpp"

#include <algorithm>
#include <bit>
#include <cstdlib>
#include <optional>

namespace insideline {
namespace {

constexpr int minor_third_up = 3;
constexpr int fourth_up = 5;
constexpr int flat_fifth_up = 6;
constexpr int fifth_up = 7;
constexpr int minor_seventh_up = 10;

int semitones_to(const HeardLine& line, std::size_t index) {
  return line.notes[index].midi - line.notes[index - 1].midi;
}

/// A half step from the note before and another one, the same way, to the next.
bool fills_a_whole_step(const HeardLine& line, std::size_t index) {
  if (!goes_on(line, index) || !goes_on(line, index + 1)) return false;
  const int before = semitones_to(line, index);
  return std::abs(before) == 1 && semitones_to(line, index + 1) == before;
}

/// Below a note that was just heard or closed in on from above: a neighbour or the lower half of an enclosure, which
/// leads into its target and has no colour of its own. What was struck over another chord closes in on nothing.
bool leads_up_to_its_target(const HeardLine& line, std::size_t index) {
  constexpr int whole_step = 2;
  if (!goes_on(line, index) || !goes_on(line, index + 1)) return false;
  if (line.notes[index - 1].sounding != line.notes[index].sounding) return false;
  const int rise = semitones_to(line, index + 1);
  const int above_target = -semitones_to(line, index) - rise;
  return rise > 0 && rise <= whole_step && above_target >= 0 && above_target <= whole_step;
}

const Chord& chord_of(const HeardLine& line, const Harmony& harmony, std::size_t index) {
  return harmony.chords[line.stretches[*line.notes[index].stretch].first].chord;
}

int above_its_root(const HeardLine& line, const Harmony& harmony, std::size_t index) {
  return pitch_class_of(line.notes[index].pitch_class - pitch_class(chord_of(line, harmony, index).root));
}

constexpr PitchClassSet minor_pentatonic = 1U << 0U | 1U << 3U | 1U << 5U | 1U << 7U | 1U << 10U;

/// The minor pentatonic on a root, and the flat fifth that makes the blues scale of it.
struct BluesScale {
  explicit BluesScale(int on) : root(on), pentatonic(moved_up(minor_pentatonic, on)) {}

  /// A tone of the chord below is no flat fifth of another scale.
  [[nodiscard]] bool is_flat_fifth(const HeardNote& note) const {
    return note.pitch_class == flat_fifth && note.role != Role::chord_tone;
  }

  int root;
  PitchClassSet pentatonic;
  int flat_fifth = (root + flat_fifth_up) % pitch_classes;
};

/// Note `index` is the neighbour, in that scale, of the note before. The flat fifth leads from 4 on to 5 or back from 5
/// to 4; turned round, it is a neighbour tone.
bool is_next_in(const BluesScale& scale, const HeardLine& line, std::size_t index) {
  constexpr int whole_step = 2;
  const int move = semitones_to(line, index);
  if (scale.is_flat_fifth(line.notes[index])) return std::abs(move) == 1;
  if (scale.is_flat_fifth(line.notes[index - 1])) return move == semitones_to(line, index - 1);
  return (std::abs(move) == whole_step || std::abs(move) == minor_third_up) &&
         contains(scale.pentatonic, line.notes[index].pitch_class);
}

/// Runs through the blues scale on a root that changes now and then.
class BluesRuns {
 public:
  explicit BluesRuns(const HeardLine& line) : line_(line) {}

  /// The index after the last note of the run from `first` on, which goes up from call to call. It neither begins nor
  /// ends with the flat fifth, which leads on.
  std::size_t end_from(std::size_t first, int root) {
    if (root != scale_.root) {
      scale_ = BluesScale(root);
      end_ = first;
    }
    if (!contains(scale_.pentatonic, line_.notes[first].pitch_class)) return first;
    if (first >= end_) look_ahead(first);
    return scale_.is_flat_fifth(line_.notes[end_ - 1]) ? end_ - 1 : end_;
  }

 private:
  /// Each note of a run but its last has the next one beside it in the scale: a run that begins later ends there, too.
  void look_ahead(std::size_t first) {
    end_ = first + 1;
    while (goes_on(line_, end_) && is_next_in(scale_, line_, end_)) ++end_;
  }

  const HeardLine& line_;
  BluesScale scale_{0};
  std::size_t end_ = 0;
};

/// The flat fifth is none of the pitches.
bool is_a_run(const HeardLine& line, std::size_t first, std::size_t end, int root) {
  constexpr std::size_t fewest_notes = 5;
  constexpr int fewest_pitches = 4;
  if (end < first + fewest_notes) return false;
  const BluesScale scale(root);
  unsigned heard = 0;
  for (std::size_t i = first; i < end; ++i)
    if (!scale.is_flat_fifth(line.notes[i])) heard |= 1U << static_cast<unsigned>(line.notes[i].pitch_class);
  return std::popcount(heard) >= fewest_pitches;
}

/// Walks along the keys with the notes.
class TonicCursor {
 public:
  explicit TonicCursor(const Solo& solo) : solo_(solo) {}

  std::optional<int> tonic_at(std::size_t note) {
    constexpr int fifth = 7;
    while (next_ < solo_.keys.size() && solo_.keys[next_].onset <= solo_.notes[note].onset) {
      const Key& key = solo_.keys[next_++].key;
      tonic_ = pitch_class_of((key.fifths + tonic_above_major(key)) * fifth);
    }
    return tonic_;
  }

 private:
  const Solo& solo_;
  std::size_t next_ = 0;
  std::optional<int> tonic_;
};

std::vector<int> roots_of(const HeardLine& line, const Harmony& harmony) {
  std::vector<int> roots;
  roots.reserve(line.stretches.size());
  for (const Stretch& stretch : line.stretches) roots.push_back(pitch_class(harmony.chords[stretch.first].chord.root));
  return roots;
}

bool is_added_degree(ChordQuality quality, int above_root) {
  constexpr int major_third_up = 4;
  constexpr int sharp_fifth_up = 8;
  constexpr int major_seventh_up = 11;
  switch (quality) {
    case ChordQuality::dominant: return above_root == major_seventh_up;
    case ChordQuality::major: return above_root == sharp_fifth_up;
    case ChordQuality::minor: return above_root == major_third_up;
    default: return false;
  }
}

/// Notes in a row by step, all one way, with note `index` among them.
std::size_t notes_by_step(const HeardLine& line, std::size_t index) {
  constexpr std::size_t far_enough = 4;
  const int way = semitones_to(line, index);
  const auto steps_on = [&](std::size_t to) {
    const int move = goes_on(line, to) ? semitones_to(line, to) : 0;
    return move * way > 0 && std::abs(move) <= 2;
  };
  std::size_t first = index;
  while (index - first < far_enough && steps_on(first)) --first;
  std::size_t last = index;
  while (last - index < far_enough && steps_on(last + 1)) ++last;
  return last + 1 - first;
}

/// The chord has the natural fifth, its symbol asks for no other, and its scale has no raised fourth.
bool may_have_blue_fifth(const Chord& chord) {
  const auto has = [&](const Degree& degree) { return std::ranges::find(chord.tones, degree) != chord.tones.end(); };
  if (is_altered(chord) || !has({5, 0}) || has({7, 0}) || has({11, 1})) return false;
  return third_of(chord).has_value();
}

/// Among notes of the minor pentatonic, with 4, 5 or the flat third beside it: 5 b5 b3, not the 3 #11 5 of another
/// scale.
bool is_in_blues_line(const HeardLine& line, std::size_t index, int root) {
  bool beside = false;
  for (const std::size_t to : {index, index + 1}) {
    if (!goes_on(line, to)) continue;
    const int other = pitch_class_of(line.notes[to == index ? index - 1 : to].pitch_class - root);
    if (!contains(minor_pentatonic, other)) return false;
    const bool close = std::abs(semitones_to(line, to)) <= minor_third_up;
    beside = beside || (close && (other == minor_third_up || other == fourth_up || other == fifth_up));
  }
  return beside;
}

class BlueFinder {
 public:
  BlueFinder(const HeardLine& line, const Solo& solo, const Analysis& analysis)
      : line_(line),
        solo_(solo),
        analysis_(analysis),
        roots_(roots_of(line, analysis.harmony)),
        elsewhere_(solo.notes.size(), false) {
    for (const Arpeggio& arpeggio : analysis.arpeggios)
      if (plays_another_chord(arpeggio))
        for (const std::size_t note : arpeggio.notes) elsewhere_[note] = true;
    for (const TritoneSubstitute& substitute : find_tritone_substitutes(line, analysis.harmony))
      std::fill(elsewhere_.begin() + static_cast<std::ptrdiff_t>(substitute.first),
                elsewhere_.begin() + static_cast<std::ptrdiff_t>(substitute.last) + 1, true);
  }

  std::vector<BlueNote> find() const {
    std::vector<BlueNote> found;
    for (std::size_t i = 0; i < line_.notes.size(); ++i) {
      if (!counts(line_.notes[i])) continue;
      const std::size_t note = line_.notes[i].note;
      const std::size_t chord = line_.stretches[*line_.notes[i].stretch].first;
      if (is_slid_into(i)) found.push_back({.note = note - 1, .chord = chord, .degree = 3});
      const auto degree = blue_degree(i);
      if (degree && (slides_into_third(i) || !(leads_in(i) || is_heard_elsewhere(i))))
        found.push_back({.note = note, .chord = chord, .degree = *degree});
    }
    return found;
  }

 private:
  static constexpr int major_third_up = 4;

  bool has_blue_third(const Chord& chord) const {
    const auto third = third_of(chord);
    const bool sharp_ninth = is_altered(chord) || std::ranges::find(chord.tones, Degree{9, 1}) != chord.tones.end();
    return third && pitch_class_above_root(*third) == major_third_up && !sharp_ninth;
  }

  const Chord& chord_at(std::size_t i) const { return chord_of(line_, analysis_.harmony, i); }
  int above(std::size_t i) const {
    return pitch_class_of(line_.notes[i].pitch_class - roots_[*line_.notes[i].stretch]);
  }

  std::optional<int> blue_degree(std::size_t i) const {
    const Chord& chord = chord_at(i);
    const int here = above(i);
    if (here == minor_third_up && has_blue_third(chord)) return 3;
    if (here == flat_fifth_up && may_have_blue_fifth(chord) &&
        is_in_blues_line(line_, i, roots_[*line_.notes[i].stretch]))
      return 5;
    if (here == minor_seventh_up && quality(chord) == ChordQuality::major) return 7;
    return std::nullopt;
  }

  /// From the lowered third up to the third of the same chord, and not as part of a figure that leads there.
  bool slides_into_third(std::size_t i) const {
    return above(i) == minor_third_up && goes_on(line_, i + 1) && semitones_to(line_, i + 1) == 1 &&
           line_.notes[i].stretch == line_.notes[i + 1].stretch && !fills_a_whole_step(line_, i) &&
           !leads_up_to_its_target(line_, i);
  }

  /// By a grace note.
  bool is_slid_into(std::size_t i) const {
    const std::size_t note = line_.notes[i].note;
    if (note == 0 || !solo_.notes[note - 1].grace || above(i) != major_third_up) return false;
    return midi_number(solo_.notes[note - 1].pitch) + 1 == line_.notes[i].midi && has_blue_third(chord_at(i));
  }

  bool leads_in(std::size_t i) const {
    return fills_a_whole_step(line_, i) || leads_up_to_its_target(line_, i) ||
           analysis_.labels[line_.notes[i].note].figure == Figure::enclosure;
  }

  /// Against the chord that follows, against another one that the line plays, or against none.
  bool is_heard_elsewhere(std::size_t i) const {
    const HeardNote& note = line_.notes[i];
    if (elsewhere_[note.note] || analysis_.labels[note.note].slips != 0) return true;
    const auto outside = [&](std::size_t other) { return line_.notes[other].role == Role::outside; };
    const bool beside = (i > 0 && outside(i - 1)) || (i + 1 < line_.notes.size() && outside(i + 1));
    if (outside(i) && beside) return true;
    const std::size_t next = *note.stretch + 1;
    return next < line_.stretches.size() && line_.stretches[next].follows &&
           end_of(solo_.notes[note.note]) > line_.stretches[next].onset;
  }

  /// On another root than the chord below.
  bool plays_another_chord(const Arpeggio& arpeggio) const {
    if (arpeggio.spells.empty()) return false;
    const std::size_t after_root = arpeggio.spells.find_first_not_of("#b", 1);
    const auto root = parse_note_name(arpeggio.spells.substr(0, after_root));
    return root && pitch_class(*root) != pitch_class(analysis_.harmony.chords[arpeggio.governor].chord.root);
  }

  const HeardLine& line_;
  const Solo& solo_;
  const Analysis& analysis_;
  std::vector<int> roots_;       // by stretch
  std::vector<bool> elsewhere_;  // by note: it belongs to another chord that the line plays
};

}  // namespace

std::vector<BlueNote> find_blue_notes(const HeardLine& line, const Solo& solo, const Analysis& analysis) {
  return BlueFinder(line, solo, analysis).find();
}

std::vector<PentatonicRun> find_pentatonic_runs(const HeardLine& line, const Solo& solo, const Harmony& harmony) {
  std::vector<PentatonicRun> found;
  const std::vector<int> roots = roots_of(line, harmony);
  TonicCursor keys(solo);
  BluesRuns over_chord(line);
  BluesRuns in_key(line);
  for (std::size_t first = 0; first < line.notes.size(); ++first) {
    if (!counts(line.notes[first])) continue;
    const int chord_root = roots[*line.notes[first].stretch];
    std::size_t end = over_chord.end_from(first, chord_root);
    int root = chord_root;
    if (const auto tonic = keys.tonic_at(line.notes[first].note)) {
      const std::size_t end_in_key = in_key.end_from(first, *tonic);
      if (end_in_key > end) root = *tonic;
      end = std::max(end, end_in_key);
    }
    if (!is_a_run(line, first, end, root)) continue;
    bool has_blue_fifth = false;
    for (std::size_t i = first; i < end; ++i)
      has_blue_fifth = has_blue_fifth || BluesScale(root).is_flat_fifth(line.notes[i]);
    found.push_back({.first = line.notes[first].note,
                     .last = line.notes[end - 1].note,
                     .root = root,
                     .has_blue_fifth = has_blue_fifth});
    first = end - 1;
  }
  return found;
}

std::vector<AddedHalfStep> find_added_half_steps(const HeardLine& line, const Harmony& harmony) {
  constexpr std::size_t fewest_notes = 5;
  std::vector<AddedHalfStep> found;
  for (std::size_t i = 1; i + 1 < line.notes.size(); ++i) {
    const HeardNote& note = line.notes[i];
    if (!counts(note) || note.on_beat || !fills_a_whole_step(line, i)) continue;
    if (!is_added_degree(quality(chord_of(line, harmony, i)), above_its_root(line, harmony, i))) continue;
    if (notes_by_step(line, i) < fewest_notes) continue;
    found.push_back({.note = note.note, .chord = line.stretches[*note.stretch].first});
  }
  return found;
}

}  // namespace insideline
