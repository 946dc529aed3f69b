#include "analyzer/drills/drill_in_keys.hpp"

#include "analyzer/alignment.hpp"
#include "analyzer/chord_spelling.hpp"
#include "analyzer/drills/octave_moves.hpp"
#include "analyzer/spelling.hpp"

#include <algorithm>
#include <cassert>
#include <cstdlib>
#include <optional>
#include <utility>

namespace insideline {
namespace {

std::vector<int> pitches_of(const Solo& solo) {
  std::vector<int> midi;
  for (const Note& note : solo.notes) midi.push_back(midi_number(note.pitch));
  return midi;
}

/// The line in another key: how far from the first key's, note by note.
struct KeyFit {
  int shift = 0;  ///< of all of it; `fit` says which notes lie an octave from there
  OctaveFit fit;
};

/// An octave or several from `interval`: where the fewest notes leave the range, and of these as near as can be to
/// where the key before was.
std::optional<KeyFit> fitting_line(const Drill& first, const DrillSettings& settings, int interval, int shift_before) {
  const std::vector<int> line = pitches_of(first.solo);
  const std::vector<bool> joints = octave_joints(first, settings);
  constexpr int octaves = 10;
  std::optional<KeyFit> best;
  for (int octave = -octaves; octave <= octaves; ++octave) {
    const int shift = interval + octave * semitones_in_octave;
    std::vector<int> moved = line;
    for (int& midi : moved) midi += shift;
    auto fit = fit_by_octaves(moved, joints, settings.range);
    if (!fit) continue;
    const auto worth = [&](int cost, int from) { return std::pair(cost, std::abs(from - shift_before)); };
    if (!best || worth(fit->cost, shift) < worth(best->fit.cost, best->shift)) best = KeyFit{shift, std::move(*fit)};
  }
  return best;
}

/// The notes in another octave, run by run; `first_note` is where the line begins on the sheet.
std::vector<OctaveMove> moves_of(const std::vector<int>& octaves, std::size_t first_note) {
  std::vector<OctaveMove> moves;
  for (std::size_t note = 0; note < octaves.size(); ++note) {
    if (octaves[note] == 0) continue;
    const bool goes_on = note > 0 && octaves[note - 1] == octaves[note];
    if (goes_on)
      moves.back().last = first_note + note;
    else
      moves.push_back({first_note + note, first_note + note, octaves[note]});
  }
  return moves;
}

/// The same line over the same changes in another key, spelled anew.
Drill moved_drill(const Drill& first, const Changes& changes, const DrillSettings& settings, const KeyFit& key) {
  Drill drill;
  drill.cost = first.cost;
  drill.solo = first.solo;
  drill.solo.keys = {{Beats(0), *changes.key}};
  drill.harmony = lay_out(changes, drill.solo);
  drill.figure_begins = first.figure_begins;
  for (std::size_t i = 0; i < drill.solo.notes.size(); ++i) {
    Note& note = drill.solo.notes[i];
    const int midi = midi_number(note.pitch) + key.shift + key.fit.octaves[i] * semitones_in_octave;
    note.pitch = spelled_pitch(midi, usual_name(midi % semitones_in_octave, Key{}));
    note.written = note.pitch;
    note.spelled = false;
    note.spelled_by_chords = false;
  }
  drill.solo = spelled_by_harmony(std::move(drill.solo), drill.harmony);
  drill.open_choices = open_choices(drill, settings);
  return drill;
}

/// Puts `next` behind `whole`.
void append(Drill& whole, const Drill& next) {
  const Beats later = end_of(whole.solo);
  const std::size_t notes_before = whole.solo.notes.size();
  const auto bars_before = static_cast<int>(whole.solo.bars.size());
  const int stretches_before = whole.harmony.chords.back().stretch + 1;
  for (KeyChange change : next.solo.keys) {
    change.onset += later;
    whole.solo.keys.push_back(change);
  }
  for (Bar bar : next.solo.bars) {
    bar.onset += later;
    bar.number += bars_before;
    whole.solo.bars.push_back(bar);
  }
  for (Note note : next.solo.notes) {
    note.onset += later;
    whole.solo.notes.push_back(std::move(note));
  }
  for (SoundingChord sounding : next.harmony.chords) {
    sounding.onset += later;
    sounding.bar += bars_before;
    sounding.chorus += whole.harmony.choruses;
    sounding.stretch += stretches_before;
    whole.harmony.chords.push_back(std::move(sounding));
  }
  for (SoundingSection section : next.harmony.sections) {
    section.onset += later;
    section.chorus += whole.harmony.choruses;
    section.first_bar += bars_before;
    section.last_bar += bars_before;
    whole.harmony.sections.push_back(std::move(section));
  }
  whole.harmony.choruses += next.harmony.choruses;
  for (OpenChoice choice : next.open_choices) {
    choice.note += notes_before;
    whole.open_choices.push_back(choice);
  }
  for (const std::size_t begin : next.figure_begins) whole.figure_begins.push_back(begin + notes_before);
  whole.cost += next.cost;
}

}  // namespace

tl::expected<DrillInKeys, std::string> drill_in_keys(const Changes& changes, const DrillSettings& settings,
                                                     KeyOrder order) {
  assert(changes.key && "the changes say their key");
  auto first = drill_over(changes, settings);
  if (!first) return tl::unexpected(first.error());
  DrillInKeys result{*first, {{0, *changes.key}}};
  int shift_before = 0;
  for (const Key& key : keys_in_order(*changes.key, order)) {
    if (key == *changes.key) continue;
    const Interval by = interval_between(*changes.key, key);
    const Changes moved = moved_plainly(changes, by);
    KeyStart start{result.drill.solo.bars.size(), key};
    if (const auto line = fitting_line(*first, settings, by.semitones, shift_before)) {
      start.moves = moves_of(line->fit.octaves, result.drill.solo.notes.size());
      append(result.drill, moved_drill(*first, moved, settings, *line));
      shift_before = line->shift;
    } else {
      auto own = drill_over(moved, settings);
      if (!own) return tl::unexpected("in " + to_string(key) + ": " + own.error());
      append(result.drill, *own);
      start.own_line = true;
      if (own->remarks.size() > first->remarks.size()) start.remarks = std::move(own->remarks);
    }
    result.keys.push_back(std::move(start));
  }
  return result;
}

}  // namespace insideline
