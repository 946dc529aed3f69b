#include "analyzer/measures/outline.hpp"

#include <algorithm>
#include <vector>

namespace insideline {
namespace {

/// The pitch classes of a chord's guide tones. A sus chord has a fourth, which nobody would call its third.
struct GuidePitches {
  std::optional<int> third;
  std::optional<int> seventh;
};

GuidePitches guide_pitches(const Chord& chord) {
  GuidePitches pitches;
  if (const auto third = third_of(chord); third && third->number == 3) pitches.third = pitch_class_at(chord, *third);
  if (const auto seventh = seventh_of(chord)) pitches.seventh = pitch_class_at(chord, *seventh);
  return pitches;
}

void count(Share& share, bool given) {
  ++share.of;
  if (given) ++share.count;
}

/// The lower of the two in the middle where the number is even: a moment that really occurs.
std::optional<Beats> median(std::vector<Beats> times) {
  if (times.empty()) return std::nullopt;
  std::ranges::sort(times);
  return times[(times.size() - 1) / 2];
}

void add_up(Outline& outline) {
  std::vector<Beats> first_guide_tones;
  for (const ChordOutline& row : outline.chords) {
    if (row.notes == 0) continue;
    if (row.has_third) count(outline.thirds, row.third.has_value());
    if (row.has_seventh) count(outline.sevenths, row.seventh.has_value());
    if (row.has_third && row.has_seventh) count(outline.both, row.third && row.seventh);
    if (row.first_guide_tone) first_guide_tones.push_back(*row.first_guide_tone);
  }
  outline.usual_first_guide_tone = median(std::move(first_guide_tones));
}

}  // namespace

Outline measure_outline(const HeardLine& line, const Solo& solo, const Harmony& harmony) {
  Outline outline;
  std::vector<GuidePitches> guides;
  for (const Stretch& stretch : line.stretches) {
    guides.push_back(guide_pitches(harmony.chords[stretch.first].chord));
    ChordOutline row;
    row.chord = stretch.first;
    row.has_third = guides.back().third.has_value();
    row.has_seventh = guides.back().seventh.has_value();
    outline.chords.push_back(row);
  }
  for (const HeardNote& note : line.notes) {
    if (!counts(note)) continue;
    ChordOutline& row = outline.chords[*note.stretch];
    const GuidePitches& guide = guides[*note.stretch];
    ++row.notes;
    const bool is_third = guide.third == note.pitch_class;
    const bool is_seventh = guide.seventh == note.pitch_class;
    if (is_third && !row.third) row.third = note.note;
    if (is_seventh && !row.seventh) row.seventh = note.note;
    if ((is_third || is_seventh) && !row.first_guide_tone)
      row.first_guide_tone = solo.notes[note.note].onset - line.stretches[*note.stretch].onset;
  }
  add_up(outline);
  return outline;
}

}  // namespace insideline
