#include "io/musicxml/play_out.hpp"

#include <algorithm>

namespace insideline::io {
namespace {

/// A chord of WrittenPart::chords at the time it begins to sound.
struct ChordOnset {
  Beats onset;
  std::size_t chord = 0;
};

bool is_continuation(const Note& before, const Note& after) {
  return !before.grace && midi_number(before.pitch) == midi_number(after.pitch) && end_of(before) == after.onset;
}

/// For each measure the chord that is in force when it begins, by the order of the page.
std::vector<std::optional<std::size_t>> chords_before(const WrittenPart& part) {
  std::vector<std::optional<std::size_t>> before;
  before.reserve(part.measures.size());
  std::optional<std::size_t> last;
  for (const WrittenMeasure& measure : part.measures) {
    before.push_back(last);
    if (measure.first_chord != measure.end_chord) last = part.symbols[measure.end_chord - 1].chord;
  }
  return before;
}

std::vector<ChordOnset> chord_onsets(const WrittenPart& part, std::span<const PlayedMeasure> played) {
  const auto before = chords_before(part);
  std::vector<ChordOnset> onsets;
  for (std::size_t k = 0; k < played.size(); ++k) {
    if (played[k].written >= part.measures.size()) continue;  // a chord part may be shorter than the solo
    const WrittenMeasure& measure = part.measures[played[k].written];
    const bool jumped = k > 0 && played[k].written != played[k - 1].written + 1;
    const bool starts_bare =
        measure.first_chord == measure.end_chord || part.symbols[measure.first_chord].position > Beats{};
    if (const auto held = before[played[k].written]; jumped && starts_bare && held)
      if (onsets.empty() || onsets.back().chord != *held) onsets.push_back({played[k].onset, *held});
    for (std::size_t i = measure.first_chord; i < measure.end_chord; ++i)
      onsets.push_back({played[k].onset + std::min(part.symbols[i].position, played[k].length), part.symbols[i].chord});
  }
  return onsets;
}

std::vector<FormBar> form_bars(const WrittenPart& part, std::span<const PlayedMeasure> played,
                               std::span<const Bar> bars) {
  std::vector<FormBar> form;
  std::string section;
  std::size_t k = 0;
  for (const Bar& bar : bars) {
    for (; k < played.size() && played[k].onset < bar.onset + bar.length; ++k)
      if (played[k].written < part.measures.size() && !part.measures[played[k].written].section.empty())
        section = part.measures[played[k].written].section;
    if (bar.number > 0) form.push_back({bar.onset, bar.length, section});
  }
  return form;
}

}  // namespace

std::vector<Bar> played_bars(std::span<const PlayedMeasure> played) {
  std::vector<Bar> bars;
  bars.reserve(played.size());
  for (const PlayedMeasure& measure : played) {
    if (measure.shape == BarShape::second_half) {
      bars.back().length += measure.length;
      continue;
    }
    const int number = measure.shape == BarShape::pickup ? 0 : bars.empty() ? 1 : bars.back().number + 1;
    bars.push_back({number, measure.onset, measure.length, measure.meter});
  }
  return bars;
}

std::vector<KeyChange> played_keys(const WrittenPart& part, std::span<const PlayedMeasure> played) {
  std::vector<std::optional<Key>> in_force;
  std::optional<Key> last;
  for (const WrittenMeasure& measure : part.measures) {
    if (measure.key) last = measure.key;
    in_force.push_back(last);
  }
  std::vector<KeyChange> keys;
  for (const PlayedMeasure& measure : played) {
    const auto& key = in_force[measure.written];
    if (key && (keys.empty() || keys.back().key != *key)) keys.push_back({measure.onset, *key});
  }
  return keys;
}

std::vector<Note> played_notes(const WrittenPart& part, const MelodicLine& line,
                               std::span<const PlayedMeasure> played) {
  std::vector<Note> notes;
  notes.reserve(line.notes.size());
  std::vector<std::uint32_t> visits(part.measures.size(), 0);
  bool tied_on = false;  // the last of `notes` expects to sound on
  for (const PlayedMeasure& measure : played) {
    const std::uint32_t visit = ++visits[measure.written];
    for (std::size_t i = line.first_note[measure.written]; i < line.first_note[measure.written + 1]; ++i) {
      const WrittenNote& source = line.notes[i];
      if (source.passes != 0 && (visit > 31 || (source.passes >> visit & 1U) == 0)) continue;
      Note note{measure.onset + source.position,
                source.duration,
                source.pitch,
                source.written,
                source.grace,
                true,
                {part.measures[measure.written].number, source.position, source.element}};
      if (tied_on && source.tied_from && is_continuation(notes.back(), note))
        notes.back().duration += note.duration;
      else
        notes.push_back(std::move(note));
      tied_on = source.tied_on;
    }
  }
  return notes;
}

std::optional<Changes> played_changes(const WrittenPart& part, std::span<const PlayedMeasure> played,
                                      const Solo& solo) {
  if (part.symbols.empty()) return std::nullopt;
  const std::vector<ChordOnset> onsets = chord_onsets(part, played);
  Changes changes;
  changes.title = solo.title;
  changes.extent = Extent::once;
  if (!solo.keys.empty()) changes.key = solo.keys.front().key;
  changes.meter = solo.bars.front().meter;
  if (solo.bars.front().number == 0) changes.pickup = solo.bars.front().length;
  changes.bars = form_bars(part, played, solo.bars);
  for (std::size_t i = 0; i < onsets.size(); ++i) {
    const Beats end = i + 1 < onsets.size() ? onsets[i + 1].onset : end_of(solo);
    if (end > onsets[i].onset)
      changes.spans.push_back({part.chords[onsets[i].chord], onsets[i].onset, end - onsets[i].onset});
  }
  return changes;
}

}  // namespace insideline::io
