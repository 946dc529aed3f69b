#include "analyzer/drills/drill_in_keys.hpp"

#include "analyzer/alignment.hpp"
#include "analyzer/chord_spelling.hpp"
#include "analyzer/spelling.hpp"

#include <algorithm>
#include <cassert>
#include <cstdlib>
#include <optional>
#include <utility>

namespace insideline {
namespace {

PitchRange span_of(const Solo& solo) {
  PitchRange span{midi_number(solo.notes.front().pitch), midi_number(solo.notes.front().pitch)};
  for (const Note& note : solo.notes) {
    span.lowest = std::min(span.lowest, midi_number(note.pitch));
    span.highest = std::max(span.highest, midi_number(note.pitch));
  }
  return span;
}

/// The distance from the first key's line to this key's, an octave or several from `interval`: within the range, and
/// as near as can be to where the key before was.
std::optional<int> fitting_shift(const PitchRange& line, const PitchRange& range, int interval, int shift_before) {
  constexpr int octaves = 10;
  std::optional<int> best;
  for (int octave = -octaves; octave <= octaves; ++octave) {
    const int shift = interval + octave * semitones_in_octave;
    if (line.lowest + shift < range.lowest || line.highest + shift > range.highest) continue;
    if (!best || std::abs(shift - shift_before) < std::abs(*best - shift_before)) best = shift;
  }
  return best;
}

/// The same line over the same changes in another key, spelled anew.
Drill moved_drill(const Drill& first, const Changes& changes, const DrillSettings& settings, int semitones) {
  Drill drill;
  drill.cost = first.cost;
  drill.solo = first.solo;
  drill.solo.keys = {{Beats(0), *changes.key}};
  drill.harmony = lay_out(changes, drill.solo);
  for (Note& note : drill.solo.notes) {
    const int midi = midi_number(note.pitch) + semitones;
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
  whole.cost += next.cost;
}

}  // namespace

tl::expected<DrillInKeys, std::string> drill_in_keys(const Changes& changes, const DrillSettings& settings,
                                                     KeyOrder order) {
  assert(changes.key && "the changes say their key");
  auto first = drill_over(changes, settings);
  if (!first) return tl::unexpected(first.error());
  const PitchRange line = span_of(first->solo);
  DrillInKeys result{*first, {{0, *changes.key}}};
  int shift_before = 0;
  for (const Key& key : keys_in_order(*changes.key, order)) {
    if (key == *changes.key) continue;
    const Interval by = interval_between(*changes.key, key);
    const Changes moved = moved_plainly(changes, by);
    KeyStart start{result.drill.solo.bars.size(), key};
    if (const auto shift = fitting_shift(line, settings.range, by.semitones, shift_before)) {
      append(result.drill, moved_drill(*first, moved, settings, *shift));
      shift_before = *shift;
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
