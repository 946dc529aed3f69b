#include "analyzer/drills/aimed_figures.hpp"

#include "analyzer/drills/drill_costs.hpp"
#include "analyzer/drills/usual_scales.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>
#include <span>
#include <utility>
#include <vector>

namespace insideline {
namespace {

constexpr std::size_t enclosing_notes = 2;
constexpr int whole_step = 2;

void add_single_tones(DrillFigures& set, int wanted, const PitchRange& range) {
  for (int midi = range.lowest; midi <= range.highest; ++midi) {
    if (midi % semitones_in_octave != wanted) continue;
    set.midi.push_back(midi);
    add_figure(set, set.midi.size() - 1, midi, 0, range);
  }
}

/// Upper and lower voice, less than an octave apart.
void add_pairs(DrillFigures& set, int upper_class, int lower_class, const PitchRange& range) {
  for (int upper = range.lowest; upper <= range.highest; ++upper) {
    if (upper % semitones_in_octave != upper_class) continue;
    const int apart = (upper_class - lower_class + semitones_in_octave) % semitones_in_octave;
    if (apart == 0 || upper - apart < range.lowest) continue;
    set.midi.push_back(upper);
    set.midi.push_back(upper - apart);
    add_figure(set, set.midi.size() - 2, upper * semitones_in_octave + apart, 0, range);
  }
}

/// Puts the two enclosing notes behind the line that ends `set.midi`, from above and below and from below and above.
void add_enclosed(DrillFigures& set, std::size_t begin, int shape, int cost, const EnclosedTone& tone,
                  const PitchRange& range) {
  const std::vector<int> line(set.midi.begin() + static_cast<std::ptrdiff_t>(begin), set.midi.end());
  set.midi.resize(begin);
  for (int target = range.lowest; target <= range.highest; ++target) {
    if (target % semitones_in_octave != tone.pitch_class || target == line.back()) continue;
    const int above = target + tone.above;
    const int below = target - tone.below;
    if (above > range.highest || below < range.lowest) continue;
    for (const auto& [first, second] : {std::pair(above, below), std::pair(below, above)}) {
      const int leap = first - line.back();
      if (leap == 0) continue;
      const bool passes = std::abs(leap) <= whole_step && (leap > 0) == (second > first);
      const int charged = std::max(0, std::abs(leap) - whole_step) * cost_of(Charge::distance) +
                          (passes ? cost_of(Charge::passes_into_enclosure) : 0) +
                          (first < second ? cost_of(Charge::enclosed_from_below) : 0);
      const std::size_t start = set.midi.size();
      set.midi.insert(set.midi.end(), line.begin(), line.end());
      set.midi.insert(set.midi.end(), {first, second});
      add_figure(set, start, shape, cost + charged, range);
    }
  }
}

bool goes_in_thirds(std::span<const Rung> rungs) {
  return std::ranges::adjacent_find(rungs, [](const Rung& lower, const Rung& upper) {
           return upper.midi - lower.midi <= whole_step;
         }) == rungs.end();
}

std::optional<EnclosedTone> aim_after(const Chord* next) {
  return next == nullptr ? std::nullopt : enclosed_tone(*next);
}

}  // namespace

GuidePair guide_pair(const Chord& chord) {
  const auto third = third_of(chord);
  const auto seventh = seventh_of(chord);
  const Degree fifth = own_tone(chord, 5).value_or(Degree{5, 0});
  return {third.value_or(fifth), seventh.value_or(Degree{1, 0}), third.has_value(), seventh.has_value()};
}

std::vector<int> guide_classes(const Chord& chord, int voices) {
  const GuidePair pair = guide_pair(chord);
  const bool has_neither = !pair.has_third && !pair.has_seventh;
  std::vector<int> classes;
  if (voices > 1 || pair.has_third || has_neither) classes.push_back(pitch_class_at(chord, pair.third));
  if (voices > 1 || pair.has_seventh || has_neither) classes.push_back(pitch_class_at(chord, pair.seventh));
  return classes;
}

std::optional<EnclosedTone> enclosed_tone(const Chord& chord) {
  const auto third = third_of(chord);
  if (!third) return std::nullopt;
  const int own = pitch_class_above_root(*third);
  const bool is_third = third->number == 3;
  const auto upper = scale_tone(chord, is_third ? 4 : 5);
  const int above = upper ? (pitch_class_above_root(*upper) - own + semitones_in_octave) % semitones_in_octave : 1;
  return EnclosedTone{pitch_class_at(chord, *third), std::clamp(above, 1, whole_step), 1};
}

DrillFigures guide_tone_figures(const Chord& chord, const DrillSettings& settings) {
  DrillFigures set;
  const std::vector<int> classes = guide_classes(chord, settings.voices);
  if (settings.voices == 1) {
    for (const int tone : classes) add_single_tones(set, tone, settings.range);
  } else {
    add_pairs(set, classes.front(), classes.back(), settings.range);
    add_pairs(set, classes.back(), classes.front(), settings.range);
  }
  const GuidePair pair = guide_pair(chord);
  set.as_asked = !set.figures.empty() && pair.has_third && pair.has_seventh;
  return set;
}

DrillFigures enclosing_figures(const Chord& chord, const DrillSegment& segment, const DrillSettings& settings,
                               const Chord* next) {
  DrillFigures set;
  const std::vector<Rung> ladder = ladder_of(chord, chord.tones, settings.range);
  const auto aim = aim_after(next);
  const auto entry = segment.is_change ? enclosed_tone(chord) : std::nullopt;
  const std::size_t places = segment.slots.size();
  const std::size_t count = aim ? places - enclosing_notes : places;
  constexpr std::size_t before_a_turn = 2;
  for (std::size_t start = 0; start < ladder.size(); ++start) {
    if (entry && ladder[start].midi % semitones_in_octave != entry->pitch_class) continue;
    for (const int way : {1, -1}) {
      if (count == 1 && way < 0) continue;
      for (std::size_t turn = 0; turn + before_a_turn <= std::max(count, before_a_turn); ++turn) {
        if (turn > 0 && turn <= before_a_turn) continue;
        const std::size_t begin = set.midi.size();
        const auto turns = append_line(set.midi, ladder, {start, way, turn, count});
        if (!turns) continue;
        const int cost = *turns * cost_of(Charge::turn_inside);
        const int shape = shape_of(ladder[start].degree, way);
        if (aim)
          add_enclosed(set, begin, shape, cost, *aim, settings.range);
        else
          add_figure(set, begin, shape, cost, settings.range);
      }
    }
  }
  set.as_asked = !set.figures.empty();
  return set;
}

DrillFigures descending_figures(const Chord& chord, const DrillSegment& segment, const DrillSettings& settings) {
  DrillFigures set;
  const std::vector<Degree> tones = arpeggio_tones(chord);
  const std::vector<Rung> ladder = ladder_of(chord, tones, settings.range);
  const std::vector<Rung> landings = ladder_of(chord, chord.tones, settings.range);
  const std::size_t down = std::min(segment.slots.size() - 1, ladder.size());
  constexpr std::size_t least = 3;
  set.has_all_tones = down >= tones.size();
  const std::vector<Degree> guides =
      down < least || set.has_all_tones ? std::vector<Degree>{} : guides_in_arpeggio(chord);
  for (std::size_t low = 0; low + down <= ladder.size(); ++low) {
    const Rung& top = ladder[low + down - 1];
    const auto rungs = std::span(ladder).subspan(low, down);
    if (!has_all(rungs, guides)) continue;
    const int steps = !guides.empty() && !goes_in_thirds(rungs) ? cost_of(Charge::step_in_descent) : 0;
    for (const Rung& landing : landings) {
      if (landing.midi == top.midi) continue;
      const std::size_t begin = set.midi.size();
      set.midi.push_back(landing.midi);
      for (std::size_t i = 0; i < down; ++i) set.midi.push_back(ladder[low + down - 1 - i].midi);
      const int leap = std::abs(top.midi - landing.midi) - semitones_in_octave;
      const int cost = steps + std::max(0, leap) * cost_of(Charge::distance) +
                       (top.midi < landing.midi ? cost_of(Charge::not_from_above) : 0);
      add_figure(set, begin, shape_of(top.degree, -1), cost, settings.range);
    }
  }
  set.as_asked = !set.figures.empty() && tones.size() >= least && down >= least;
  return set;
}

}  // namespace insideline
