#include "analyzer/drills/figures.hpp"

#include "analyzer/drills/aimed_figures.hpp"
#include "analyzer/drills/drill_costs.hpp"
#include "analyzer/drills/usual_scales.hpp"
#include "analyzer/harmony/tensions.hpp"

#include <algorithm>
#include <array>
#include <cstdlib>

namespace insideline {
namespace {

bool is_guide_tone(const Chord& chord, const Degree& degree) {
  return degree == third_of(chord) || degree == seventh_of(chord);
}

bool is_outer(int midi, const PitchRange& range) {
  constexpr int parts = 6;
  const int sixth = (range.highest - range.lowest) / parts;
  return midi < range.lowest + sixth || midi > range.highest - sixth;
}

/// One line as a figure.
void add_line(DrillFigures& set, std::span<const Rung> ladder, const RungLine& line, int cost,
              const PitchRange& range) {
  const std::size_t begin = set.midi.size();
  const auto turns = append_line(set.midi, ladder, line);
  if (!turns) return;
  add_figure(set, begin, shape_of(ladder[line.start].degree, line.way), cost + *turns * cost_of(Charge::turn_inside),
             range);
}

DrillFigures lines_over(const Chord& chord, const DrillSegment& segment, const DrillSettings& settings) {
  DrillFigures set;
  const std::vector<Rung> ladder = ladder_of(chord, chord.tones, settings.range);
  const std::size_t count = segment.slots.size();
  constexpr std::size_t before_a_turn = 2;  // fewer notes in one direction are a wobble
  for (std::size_t start = 0; start < ladder.size(); ++start) {
    const bool enters_plainly = segment.is_change && !is_guide_tone(chord, ladder[start].degree);
    const int cost = enters_plainly ? cost_of(Charge::no_guide_tone) : 0;
    for (const int way : {1, -1}) {
      if (count == 1 && way < 0) continue;
      add_line(set, ladder, {start, way, 0, count}, cost, settings.range);
      for (std::size_t turn = before_a_turn + 1; turn + before_a_turn <= count; ++turn)
        add_line(set, ladder, {start, way, turn, count}, cost, settings.range);
    }
  }
  return set;
}

Inversion inversion_by(const Degree& lowest) {
  switch (lowest.number) {
    case 1: return Inversion::root_position;
    case 2:
    case 3:
    case 4: return Inversion::first;
    case 5: return Inversion::second;
    case 6:
    case 7: return Inversion::third;
    default: return Inversion::none;
  }
}

/// What every arpeggio of a chord must be.
struct ArpeggioRule {
  std::optional<Inversion> inversion;
  std::optional<Degree> from;
  std::vector<Degree> all_of = {};  ///< tones that it has among others
};

void add_arpeggios(DrillFigures& set, std::span<const Rung> ladder, std::size_t count, const ArpeggioRule& rule,
                   const DrillSettings& settings) {
  const int way = settings.way == Way::up ? 1 : -1;
  for (std::size_t low = 0; low + count <= ladder.size(); ++low) {
    const Rung& lowest = ladder[low];
    const Rung& first = way > 0 ? lowest : ladder[low + count - 1];
    if (rule.inversion && inversion_by(lowest.degree) != *rule.inversion) continue;
    if (rule.from && first.degree != *rule.from) continue;
    if (!has_all(ladder.subspan(low, count), rule.all_of)) continue;
    const std::size_t begin = set.midi.size();
    for (std::size_t i = 0; i < count; ++i) set.midi.push_back(ladder[way > 0 ? low + i : low + count - 1 - i].midi);
    add_figure(set, begin, shape_of(first.degree, way), 0, settings.range);
  }
}

/// Where the room is too small for all tones: third and seventh, with a neighbour; where the rule does not allow that,
/// the fifth is skipped, or the root.
void add_short_arpeggios(DrillFigures& set, const Chord& chord, std::size_t count, ArpeggioRule rule,
                         const DrillSettings& settings) {
  const std::vector<Degree> tones = arpeggio_tones(chord);
  rule.all_of = guides_in_arpeggio(chord);
  add_arpeggios(set, ladder_of(chord, tones, settings.range), count, rule, settings);
  for (const int skipped : {5, 1}) {
    if (!set.figures.empty() || tones.size() != count + 1) return;
    std::vector<Degree> kept = tones;
    std::erase_if(kept, [&](const Degree& tone) { return tone.number == skipped; });
    add_arpeggios(set, ladder_of(chord, kept, settings.range), count, rule, settings);
  }
}

DrillFigures arpeggios_over(const Chord& chord, const DrillSegment& segment, const DrillSettings& settings) {
  const std::vector<Degree> tones = arpeggio_tones(chord);
  const std::vector<Rung> ladder = ladder_of(chord, tones, settings.range);
  ArpeggioRule rule{inversion_in(settings, segment.chorus), std::nullopt};
  DrillFigures set;
  constexpr std::size_t least = 3;
  set.as_asked = tones.size() >= least && segment.slots.size() >= least;
  if (settings.from_tone) {
    rule.from = own_tone(chord, *settings.from_tone);
    if (!rule.from) set.as_asked = false;
  }
  set.has_all_tones = segment.slots.size() >= tones.size();
  if (!set.has_all_tones) add_short_arpeggios(set, chord, segment.slots.size(), rule, settings);
  if (set.figures.empty()) add_arpeggios(set, ladder, std::min(segment.slots.size(), ladder.size()), rule, settings);
  if (!set.figures.empty()) return set;
  set.as_asked = false;
  for (std::size_t count = std::min(segment.slots.size(), ladder.size()); count >= 2 && set.figures.empty(); --count)
    add_arpeggios(set, ladder, count, {}, settings);
  return set;
}

constexpr int widest_cell = 16;  // a tenth

/// The cell's tones in semitones above its first, going one way throughout.
std::vector<int> one_way(std::span<const Degree> cell, int way) {
  std::vector<int> places{0};
  for (std::size_t i = 1; i < cell.size(); ++i) {
    const int up = pitch_class_above_root(cell[i]) - pitch_class_above_root(cell[i - 1]);
    const int away = ((way * up) % semitones_in_octave + semitones_in_octave) % semitones_in_octave;
    places.push_back(places.back() + way * (away == 0 ? semitones_in_octave : away));
  }
  return places;
}

/// The same as the numbers lie above one root: 1 3 5 3 goes up and comes back.
std::vector<int> by_number(std::span<const Degree> cell) {
  constexpr std::array<int, 7> major{0, 2, 4, 5, 7, 9, 11};
  std::vector<int> places;
  for (const Degree& tone : cell) {
    const auto steps = static_cast<std::size_t>(tone.number - 1);
    const int octaves = static_cast<int>(steps / major.size());
    places.push_back(octaves * semitones_in_octave + major.at(steps % major.size()) + tone.alter);
  }
  const auto too_wide = [&] {
    const auto [low, high] = std::ranges::minmax(places);
    return high - low > widest_cell;
  };
  while (too_wide()) *std::ranges::max_element(places) -= semitones_in_octave;
  const int first = places.front();
  for (int& place : places) place -= first;
  return places;
}

/// How far a cell lies beyond an octave from the middle of the range.
int semitones_too_far(int lowest, int highest, const PitchRange& range) {
  const int middle = (range.lowest + range.highest) / 2;
  return std::max({0, middle - semitones_in_octave - lowest, highest - middle - semitones_in_octave});
}

/// One cell from every place in the range that it fits in.
void add_cells(DrillFigures& set, int first_class, std::span<const int> places, int cost, const PitchRange& range) {
  for (int start = range.lowest; start <= range.highest; ++start) {
    if (start % semitones_in_octave != first_class) continue;
    const auto [low, high] = std::ranges::minmax(places);
    if (start + low < range.lowest || start + high > range.highest) continue;
    const int far = semitones_too_far(start + low, start + high, range);
    const std::size_t begin = set.midi.size();
    for (const int place : places) set.midi.push_back(start + place);
    add_figure(set, begin, (start * 2) + (places.back() > 0 ? 1 : 0), cost + far * cost_of(Charge::far_cell), range);
  }
}

bool names_a_tone_twice(std::span<const Degree> cell) {
  for (std::size_t i = 0; i < cell.size(); ++i)
    if (std::ranges::count(cell, cell[i]) > 1) return true;
  return false;
}

/// A cell goes one way, up or down, where it names no tone twice and then stays within a tenth and the range; else it
/// lies by its numbers.
void add_cell(DrillFigures& set, const Chord& chord, std::span<const Degree> cell, const std::optional<Way>& way,
              std::size_t count, int cost, const PitchRange& range) {
  const int first_class = pitch_class_at(chord, cell.front());
  const std::size_t before = set.figures.size();
  for (const int sign : {1, -1}) {
    if (way && (*way == Way::up) != (sign > 0)) continue;
    const std::vector<int> places = one_way(cell, sign);
    if (!names_a_tone_twice(cell) && std::abs(places.back()) <= widest_cell)
      add_cells(set, first_class, std::span(places).first(count), cost, range);
  }
  if (set.figures.size() > before) return;
  const std::vector<int> places = by_number(cell);
  add_cells(set, first_class, std::span(places).first(count), cost, range);
}

DrillFigures cells_over(const Chord& chord, const DrillSegment& segment, const DrillSettings& settings) {
  DrillFigures set;
  int cost = 0;
  for (const DrillCell& cell : settings.cells) {
    std::vector<Degree> tones;
    for (const CellTone& tone : cell.tones)
      if (const auto played = cell_tone(chord, tone)) tones.push_back(*played);
    if (tones.size() == cell.tones.size() && segment.slots.size() <= tones.size())
      add_cell(set, chord, tones, cell.way, segment.slots.size(), cost, settings.range);
    cost += cost_of(Charge::later_cell);
  }
  set.as_asked = !set.figures.empty();
  return set;
}

}  // namespace

std::vector<Rung> ladder_of(const Chord& chord, std::span<const Degree> tones, const PitchRange& range) {
  std::vector<Rung> ladder;
  const int root = pitch_class(chord.root);
  for (int midi = range.lowest; midi <= range.highest; ++midi)
    for (const Degree& tone : tones)
      if (midi % semitones_in_octave == (root + pitch_class_above_root(tone)) % semitones_in_octave &&
          (ladder.empty() || ladder.back().midi != midi))
        ladder.push_back({midi, tone});
  return ladder;
}

void add_figure(DrillFigures& set, std::size_t begin, int shape, int cost, const PitchRange& range) {
  DrillFigure figure{begin, set.midi.size() - begin, set.midi[begin], set.midi.back(), 0, 0, shape, cost};
  for (std::size_t i = begin; i < set.midi.size(); ++i)
    if (is_outer(set.midi[i], range)) figure.cost += cost_of(Charge::outer_range);
  if (figure.size > 1) {
    figure.first_way = set.midi[begin + 1] > set.midi[begin] ? 1 : -1;
    figure.last_way = set.midi.back() > set.midi[set.midi.size() - 2] ? 1 : -1;
  }
  set.figures.push_back(figure);
}

int shape_of(const Degree& first, int way) {
  constexpr int alterations = 8;
  return ((first.number * alterations) + first.alter + alterations / 2) * 2 + (way > 0 ? 1 : 0);
}

std::optional<int> append_line(std::vector<int>& midi, std::span<const Rung> ladder, const RungLine& line) {
  const std::size_t begin = midi.size();
  const auto top = static_cast<int>(ladder.size()) - 1;
  auto at = static_cast<int>(line.start);
  int way = line.way;
  int turns = 0;
  midi.push_back(ladder[line.start].midi);
  for (std::size_t note = 1; note < line.count; ++note) {
    const bool at_end = at + way < 0 || at + way > top;
    if (at_end && note == 1) {  // the other direction is a line of its own
      midi.resize(begin);
      return std::nullopt;
    }
    if (at_end || note == line.turn) {
      way = -way;
      ++turns;
    }
    at = std::clamp(at + way, 0, top);
    midi.push_back(ladder[static_cast<std::size_t>(at)].midi);
  }
  return turns;
}

std::optional<Degree> own_tone(const Chord& chord, int number) {
  // Of b13 and 13, both welcome over 7b9, the plain number means the plain one.
  const auto with_number = [&](const std::vector<Degree>& degrees) -> std::optional<Degree> {
    if (has_tone(degrees, {number, 0})) return Degree{number, 0};
    const auto found = std::ranges::find(degrees, number, &Degree::number);
    return found == degrees.end() ? std::nullopt : std::optional(*found);
  };
  if (const auto tone = with_number(chord.tones)) return tone;
  if (number == 3) return third_of(chord);
  if (number == 7) return seventh_of(chord);
  return number > 7 ? with_number(chord.tensions) : std::nullopt;
}

std::vector<Degree> arpeggio_tones(const Chord& chord) {
  std::vector<Degree> tones;
  constexpr int highest = 7;
  for (const Degree& tone : chord.tones)
    if (tone.number <= highest) tones.push_back(tone);
  return tones;
}

bool has_all(std::span<const Rung> rungs, std::span<const Degree> tones) {
  return std::ranges::all_of(
      tones, [&](const Degree& tone) { return std::ranges::find(rungs, tone, &Rung::degree) != rungs.end(); });
}

std::vector<Degree> guides_in_arpeggio(const Chord& chord) {
  const std::vector<Degree> tones = arpeggio_tones(chord);
  std::vector<Degree> guides = guide_tones(chord);
  std::erase_if(guides, [&](const Degree& guide) { return !has_tone(tones, guide); });
  return guides;
}

std::size_t wanted_tones(const Chord& chord, const DrillSettings& settings) {
  switch (settings.kind) {
    case DrillKind::nearest_tones:
    case DrillKind::common_tones: return 0;
    case DrillKind::arpeggios: return std::max<std::size_t>(3, arpeggio_tones(chord).size());
    case DrillKind::cells: return settings.cells.front().tones.size();
    case DrillKind::guide_tones:
    case DrillKind::enclosures: return 0;
    case DrillKind::descents: return std::max<std::size_t>(3, arpeggio_tones(chord).size());
  }
  return 0;
}

std::optional<Inversion> inversion_in(const DrillSettings& settings, int chorus) {
  if (!settings.every_inversion) return settings.inversion;
  static constexpr std::array in_turn{Inversion::root_position, Inversion::first, Inversion::second, Inversion::third};
  return in_turn.at(static_cast<std::size_t>(chorus - 1) % in_turn.size());
}

DrillFigures figures_over(const Chord& chord, const DrillSegment& segment, const DrillSettings& settings,
                          const Chord* next) {
  DrillFigures set;
  switch (settings.kind) {
    case DrillKind::nearest_tones:
    case DrillKind::common_tones: set = lines_over(chord, segment, settings); break;
    case DrillKind::arpeggios: set = arpeggios_over(chord, segment, settings); break;
    case DrillKind::cells: set = cells_over(chord, segment, settings); break;
    case DrillKind::guide_tones: set = guide_tone_figures(chord, settings); break;
    case DrillKind::enclosures: set = enclosing_figures(chord, segment, settings, next); break;
    case DrillKind::descents: set = descending_figures(chord, segment, settings); break;
  }
  if (set.figures.empty()) {
    set.figures.push_back({});
    set.as_asked = false;
  }
  return set;
}

}  // namespace insideline
