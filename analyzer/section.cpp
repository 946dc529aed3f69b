#include "analyzer/section.hpp"

#include "analyzer/labels/label_notes.hpp"
#include "analyzer/model/sections.hpp"
#include "analyzer/phrases.hpp"

#include <algorithm>
#include <utility>
#include <vector>

namespace insideline {
namespace {

/// From `begin` to `end`, which is not included.
struct TimeSpan {
  Beats begin;
  Beats end;
};

using Renumbered = std::vector<std::optional<std::size_t>>;  // by old index; none is left out

std::optional<TimeSpan> span_of_bars(const Solo& solo, int first, int last) {
  std::optional<TimeSpan> span;
  for (const Bar& bar : solo.bars) {
    if (bar.number < first || bar.number > last) continue;
    if (!span) span = {bar.onset, bar.onset};
    span->end = bar.onset + bar.length;
  }
  return span;
}

std::optional<TimeSpan> span_of_chorus(const Solo& solo, const Harmony& harmony, int chorus) {
  if (chorus < 1 || chorus > harmony.choruses) return std::nullopt;
  const Beats begin = solo.bars.front().onset;
  if (harmony.chorus_length <= Beats(0)) return TimeSpan{begin, end_of(solo)};
  Beats first = harmony.first_chorus;
  if (first > Beats(0)) first -= harmony.chorus_length;
  const Beats from = first + Beats(chorus - 1) * harmony.chorus_length;
  return TimeSpan{chorus == 1 ? begin : from, from + harmony.chorus_length};
}

std::optional<TimeSpan> span_of_phrase(const Solo& solo, const std::vector<Phrase>& phrases, int phrase) {
  if (phrase < 1 || static_cast<std::size_t>(phrase) > phrases.size()) return std::nullopt;
  const auto [first, last] = phrases[static_cast<std::size_t>(phrase) - 1];
  const Note& end = solo.notes[last];
  return TimeSpan{solo.notes[first].onset, end.duration > Beats(0) ? end_of(end) : end.onset + Beats(1)};
}

std::optional<TimeSpan> span_of_named(const Solo& solo, const Harmony& harmony, const std::string& name) {
  const std::vector<std::size_t> found = sections_named(harmony.sections, name);
  if (found.empty()) return std::nullopt;
  const SoundingSection& section = harmony.sections[found.front()];
  const bool first_of_all = section.first_bar <= 1;
  return TimeSpan{first_of_all ? solo.bars.front().onset : section.onset, section.onset + section.duration};
}

std::optional<TimeSpan> span_of(const Section& section, const Solo& solo, const Harmony& harmony,
                                const std::vector<Phrase>& phrases) {
  switch (section.kind) {
    case SectionKind::bars: return span_of_bars(solo, section.first, section.last);
    case SectionKind::chorus: return span_of_chorus(solo, harmony, section.first);
    case SectionKind::phrase: return span_of_phrase(solo, phrases, section.first);
    case SectionKind::named: return span_of_named(solo, harmony, section.name);
  }
  return std::nullopt;
}

bool overlaps(const TimeSpan& span, const Beats& onset, const Beats& duration) {
  return onset < span.end && onset + duration > span.begin;
}

/// Old to new indices of what is kept, in order.
Renumbered numbered(const std::vector<bool>& kept) {
  Renumbered numbers(kept.size());
  std::size_t next = 0;
  for (std::size_t i = 0; i < kept.size(); ++i)
    if (kept[i]) numbers[i] = next++;
  return numbers;
}

std::optional<std::size_t> renumbered(const std::optional<std::size_t>& index, const Renumbered& numbers) {
  return index ? numbers[*index] : std::nullopt;
}

template <typename Value>
std::vector<Value> only(const std::vector<Value>& values, const Renumbered& numbers) {
  std::vector<Value> kept;
  for (std::size_t i = 0; i < values.size(); ++i)
    if (numbers[i]) kept.push_back(values[i]);
  return kept;
}

Renumbered notes_in(const TimeSpan& span, const Solo& solo) {
  std::vector<bool> kept;
  for (const Note& note : solo.notes) kept.push_back(span.begin <= note.onset && note.onset < span.end);
  return numbered(kept);
}

Renumbered chords_in(const TimeSpan& span, const Harmony& harmony, const std::vector<NoteLabel>& labels) {
  std::vector<bool> kept;
  for (const SoundingChord& chord : harmony.chords) kept.push_back(overlaps(span, chord.onset, chord.duration));
  for (const NoteLabel& label : labels)
    if (label.governor) kept[*label.governor] = true;
  return numbered(kept);
}

Solo solo_in(const TimeSpan& span, const Solo& whole, const Renumbered& notes) {
  Solo solo = whole;
  std::erase_if(solo.bars, [&](const Bar& bar) { return !overlaps(span, bar.onset, bar.length); });
  solo.notes = only(whole.notes, notes);
  if (!whole.performed.empty()) solo.performed = only(whole.performed, notes);
  std::erase_if(solo.marks, [&](const RehearsalMark& mark) { return !overlaps(span, mark.onset, Beats(0)); });
  return solo;
}

NoteLabel renumbered(NoteLabel label, const Renumbered& notes, const Renumbered& chords) {
  std::erase_if(label.alternatives, [&](const Alternative& other) {
    return other.governor && !chords[*other.governor];  // it speaks of a chord that is not here
  });
  for (Alternative& other : label.alternatives) other.governor = renumbered(other.governor, chords);
  label.chord = renumbered(label.chord, chords);
  label.governor = renumbered(label.governor, chords);
  label.resolves_to = renumbered(label.resolves_to, notes);
  return label;
}

/// The phrases as far as they lie in the part.
std::vector<Phrase> phrases_in(const std::vector<Phrase>& whole, const Renumbered& notes) {
  std::vector<Phrase> phrases;
  for (const Phrase& phrase : whole) {
    std::optional<Phrase> kept;
    for (std::size_t i = phrase.first; i <= phrase.last; ++i) {
      if (!notes[i]) continue;
      if (!kept) kept = {*notes[i], *notes[i]};
      kept->last = *notes[i];
    }
    if (kept) phrases.push_back(*kept);
  }
  return phrases;
}

}  // namespace

std::optional<SoloPart> analyze_section(const Solo& solo, const Harmony& harmony, const Section& section,
                                        const Settings& settings) {
  const std::vector<Phrase> phrases = find_phrases(solo, harmony, settings);
  const auto span = span_of(section, solo, harmony, phrases);
  if (!span) return std::nullopt;
  const Renumbered notes = notes_in(*span, solo);
  std::vector<NoteLabel> labels = only(label_notes(solo, harmony, phrases, settings), notes);
  if (labels.empty()) return std::nullopt;

  const Renumbered chords = chords_in(*span, harmony, labels);
  for (NoteLabel& label : labels) label = renumbered(std::move(label), notes, chords);
  Harmony part = harmony;
  part.chords = only(harmony.chords, chords);
  std::erase_if(part.sections, [&](const SoundingSection& s) { return !overlaps(*span, s.onset, s.duration); });

  SoloPart result;
  result.solo = solo_in(*span, solo, notes);
  result.analysis =
      analyze_labelled(result.solo, std::move(part), phrases_in(phrases, notes), std::move(labels), settings);
  return result;
}

}  // namespace insideline
