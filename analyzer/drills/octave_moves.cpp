#include "analyzer/drills/octave_moves.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <limits>

namespace insideline {
namespace {

constexpr std::array octave_choices{-1, 0, 1};
constexpr int out_of_reach = std::numeric_limits<int>::max() / 4;

struct OctaveStep {
  int cost = out_of_reach;
  std::size_t before = 0;  // the choice for the note before
};
using OctaveRow = std::array<OctaveStep, octave_choices.size()>;

int at_octave(int midi, std::size_t choice) { return midi + octave_choices.at(choice) * semitones_in_octave; }

/// What a new leap costs; the same pitch twice is no line.
int leap_cost(int from, int to) { return from == to ? semitones_in_octave : std::abs(to - from); }

bool same_stretch(const Drill& drill, std::size_t note) {
  const auto before = chord_index_at(drill.harmony, drill.solo.notes[note - 1].onset);
  const auto here = chord_index_at(drill.harmony, drill.solo.notes[note].onset);
  return before && here && drill.harmony.chords[*before].stretch == drill.harmony.chords[*here].stretch;
}

/// Whether the line may change its octave inside the chord, before this note.
bool is_joint_of_line(const Drill& drill, DrillKind kind, std::size_t note) {
  if (!same_stretch(drill, note)) return false;
  const bool is_tone_led_to = std::ranges::binary_search(drill.figure_begins, note - 1);
  if (kind == DrillKind::descents) return is_tone_led_to;
  const bool last_before_change = note + 1 < drill.solo.notes.size() && !same_stretch(drill, note + 1);
  return kind != DrillKind::enclosures || !last_before_change;
}

OctaveRow next_row(std::span<const int> midi, std::size_t note, bool joint, const OctaveRow& before,
                   const PitchRange& range) {
  OctaveRow row;
  for (std::size_t here = 0; here < row.size(); ++here) {
    const int pitch = at_octave(midi[note], here);
    if (pitch < range.lowest || pitch > range.highest) continue;
    for (std::size_t from = 0; from < row.size(); ++from) {
      if (from != here && !joint) continue;
      const int leap = from == here ? 0 : leap_cost(at_octave(midi[note - 1], from), pitch);
      const int cost = before.at(from).cost + std::abs(octave_choices.at(here)) + leap;
      if (cost < row.at(here).cost) row.at(here) = {cost, from};
    }
  }
  return row;
}

OctaveRow first_row(int midi, const PitchRange& range) {
  OctaveRow row;
  for (std::size_t here = 0; here < row.size(); ++here) {
    const int pitch = at_octave(midi, here);
    if (pitch >= range.lowest && pitch <= range.highest) row.at(here).cost = std::abs(octave_choices.at(here));
  }
  return row;
}

}  // namespace

std::vector<bool> octave_joints(const Drill& drill, const DrillSettings& settings) {
  std::vector<bool> joints(drill.solo.notes.size(), false);
  for (std::size_t note = 1; note < joints.size(); ++note) switch (settings.kind) {
      case DrillKind::arpeggios:
      case DrillKind::cells: joints[note] = std::ranges::binary_search(drill.figure_begins, note); break;
      case DrillKind::nearest_tones:
      case DrillKind::common_tones:
      case DrillKind::enclosures:
      case DrillKind::descents: joints[note] = is_joint_of_line(drill, settings.kind, note); break;
      case DrillKind::guide_tones: break;
    }
  return joints;
}

std::optional<OctaveFit> fit_by_octaves(std::span<const int> midi, const std::vector<bool>& joints,
                                        const PitchRange& range) {
  std::vector<OctaveRow> rows{first_row(midi.front(), range)};
  for (std::size_t note = 1; note < midi.size(); ++note)
    rows.push_back(next_row(midi, note, joints[note], rows.back(), range));
  const auto best = std::ranges::min_element(rows.back(), {}, &OctaveStep::cost);
  if (best->cost >= out_of_reach) return std::nullopt;
  OctaveFit fit{std::vector<int>(midi.size()), best->cost};
  auto choice = static_cast<std::size_t>(best - rows.back().begin());
  for (std::size_t note = midi.size(); note-- > 0;) {
    fit.octaves[note] = octave_choices.at(choice);
    choice = rows[note].at(choice).before;
  }
  const auto stay = static_cast<std::size_t>(std::ranges::count(fit.octaves, 0));
  constexpr std::size_t at_most_one_in = 3;
  if ((midi.size() - stay) * at_most_one_in > midi.size()) return std::nullopt;
  return fit;
}

}  // namespace insideline
