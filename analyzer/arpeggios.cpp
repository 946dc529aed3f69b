#include "analyzer/arpeggios.hpp"

#include "analyzer/arpeggio_runs.hpp"
#include "analyzer/harmony/chord_from_notes.hpp"
#include "analyzer/harmony/chord_symbol.hpp"

#include <algorithm>
#include <bit>
#include <cstdlib>
#include <string>

namespace insideline {
namespace {

constexpr int through_the_chord = 3;  // members that make a climb or a descent

enum Place { root_place, third_place, fifth_place, seventh_place, ninth_place, eleventh_place, thirteenth_place };

Place place_of(const Degree& degree) {
  switch (degree.number) {
    case 1: return root_place;
    case 2:
    case 3:
    case 4: return third_place;
    case 5: return fifth_place;
    case 6:
    case 7: return seventh_place;
    case 9: return ninth_place;
    case 11: return eleventh_place;
    default: return thirteenth_place;
  }
}

/// The members' moves from note to note, repeated pitches left out.
struct Moves {
  std::vector<int> semitones;
  std::vector<int> places;  ///< up or down the stack
};

Moves moves_of(const Run& run, const HeardLine& line, const Stack& stack) {
  Moves moves;
  for (std::size_t i = 1; i < run.members.size(); ++i) {
    const HeardNote& from = line.notes[run.members[i - 1]];
    const HeardNote& to = line.notes[run.members[i]];
    if (from.midi == to.midi) continue;
    moves.semitones.push_back(to.midi - from.midi);
    moves.places.push_back(steps_in_stack(*stack[static_cast<std::size_t>(from.pitch_class)],
                                          *stack[static_cast<std::size_t>(to.pitch_class)]));
  }
  return moves;
}

bool all_up(const std::vector<int>& moves) {
  return std::ranges::all_of(moves, [](int move) { return move > 0; });
}
bool all_down(const std::vector<int>& moves) {
  return std::ranges::all_of(moves, [](int move) { return move < 0; });
}

/// A run that goes up the stack third by third while a minority of its notes is put into
/// another octave is still heard as going up; likewise down.
std::optional<Direction> displaced_direction(const Moves& moves) {
  const auto all_are = [&](int place) {
    return std::ranges::all_of(moves.places, [&](int move) { return move == place; });
  };
  const auto up = std::ranges::count_if(moves.semitones, [](int move) { return move > 0; });
  const auto down = static_cast<std::ptrdiff_t>(moves.semitones.size()) - up;
  if (all_are(1) && up > down) return Direction::ascending;
  if (all_are(-1) && down > up) return Direction::descending;
  return std::nullopt;
}

/// True where some of the moves, one after the other, go one way through three different members.
bool passes_through(const Run& run, const HeardLine& line, int sign) {
  unsigned set = 0;
  for (std::size_t i = 0; i < run.members.size(); ++i) {
    const HeardNote& note = line.notes[run.members[i]];
    const int move = i == 0 ? 0 : note.midi - line.notes[run.members[i - 1]].midi;
    if (move * sign < 0) set = 0;
    set |= 1U << note.pitch_class;
    if (std::popcount(set) >= through_the_chord) return true;
  }
  return false;
}

/// The members up to the first turn, if they come down.
bool begins_downward(const Run& run, const HeardLine& line) {
  Run opening;
  for (const std::size_t i : run.members) {
    if (!opening.members.empty() && line.notes[i].midi > line.notes[opening.members.back()].midi) break;
    opening.members.push_back(i);
  }
  return passes_through(opening, line, -1);
}

Inversion inversion_by_lowest(const Member& lowest) {
  if (lowest.extension) return Inversion::none;
  switch (place_of(lowest.degree)) {
    case root_place: return Inversion::root_position;
    case third_place: return Inversion::first;
    case fifth_place: return Inversion::second;
    case seventh_place: return Inversion::third;
    case ninth_place:
    case eleventh_place:
    case thirteenth_place: return Inversion::none;
  }
  return Inversion::none;
}

/// What the notes spell; the chord itself if they are exactly its tones, however else they might be named.
std::string spelled(const Arpeggio& arpeggio, const Chord& chord, bool exactly_its_tones, std::size_t lowest) {
  Chord own = chord;
  own.bass.reset();
  if (exactly_its_tones) return canonical_symbol(own);
  std::vector<NoteName> names = {note_at(chord.root, arpeggio.degrees[lowest])};
  for (const Degree& degree : arpeggio.degrees) {
    const NoteName name = note_at(chord.root, degree);
    if (std::ranges::find(names, name) == names.end()) names.push_back(name);
  }
  const auto other = chord_spelled_by(names);
  return other ? canonical_symbol(*other) : std::string{};
}

void describe_motion(Arpeggio& arpeggio, const Run& run, const HeardLine& line, const Stack& stack) {
  const Moves moves = moves_of(run, line, stack);
  arpeggio.repeats = moves.semitones.size() + 1 < run.members.size();
  const auto displaced = displaced_direction(moves);
  const bool straight = all_up(moves.semitones) || all_down(moves.semitones);
  const bool wide = std::ranges::any_of(moves.semitones, [](int move) { return std::abs(move) > semitones_in_octave; });
  const bool octave_leap =
      std::ranges::any_of(moves.semitones, [](int move) { return move % semitones_in_octave == 0; });
  arpeggio.octave_displaced = wide || octave_leap || (!straight && displaced.has_value());
  if (all_up(moves.semitones))
    arpeggio.direction = Direction::ascending;
  else if (all_down(moves.semitones))
    arpeggio.direction = Direction::descending;
  else
    arpeggio.direction = displaced.value_or(Direction::mixed);
}

Arpeggio described(const Run& run, const HeardLine& line, const Stack& stack, const Harmony& harmony,
                   std::span<const NoteLabel> labels) {
  Arpeggio arpeggio;
  unsigned set = 0;
  std::size_t lowest = 0;
  std::size_t highest = 0;
  const auto midi = [&](std::size_t at) { return line.notes[run.members[at]].midi; };
  for (std::size_t at = 0; at < run.members.size(); ++at) {
    const HeardNote& note = line.notes[run.members[at]];
    arpeggio.notes.push_back(note.note);
    arpeggio.degrees.push_back(stack[static_cast<std::size_t>(note.pitch_class)]->degree);
    set |= 1U << note.pitch_class;
    if (midi(at) < midi(lowest)) lowest = at;
    if (midi(at) > midi(highest)) highest = at;
  }
  for (const std::size_t i : run.ornaments) arpeggio.ornaments.push_back(line.notes[i].note);
  arpeggio.governor = *labels[arpeggio.notes.front()].governor;
  arpeggio.complete = run.complete;
  arpeggio.span_semitones = midi(highest) - midi(lowest);
  arpeggio.inversion =
      inversion_by_lowest(*stack[static_cast<std::size_t>(line.notes[run.members[lowest]].pitch_class)]);
  const Stretch& stretch = line.stretches[*line.notes[run.members.front()].stretch];
  arpeggio.spells = spelled(arpeggio, harmony.chords[arpeggio.governor].chord, set == stretch.tones, lowest);
  describe_motion(arpeggio, run, line, stack);
  return arpeggio;
}

}  // namespace

int steps_in_stack(const Member& from, const Member& to) {
  return from.in_row && to.in_row ? *to.in_row - *from.in_row : to.place - from.place;
}

Stack stack_of(const Chord& chord) {
  Stack stack;
  const int root = pitch_class(chord.root);
  const bool has_seventh = std::ranges::any_of(chord.tones, [](const Degree& d) { return d.number == 7; });
  const auto add = [&](const Degree& degree, std::optional<int> in_row) {
    auto& slot = stack[static_cast<std::size_t>((root + pitch_class_above_root(degree)) % pitch_classes)];
    if (!slot) slot = Member{degree, place_of(degree), in_row, degree.number > 7};
  };
  int row = 0;
  for (const Degree& tone : chord.tones) add(tone, row++);
  for (const Degree& tension : chord.tensions)
    if (tension.number > 7 && (tension.number < 13 || has_seventh)) add(tension, std::nullopt);
  return stack;
}

std::vector<Arpeggio> find_arpeggios(const HeardLine& line, const Harmony& harmony, std::span<const NoteLabel> labels) {
  std::vector<Stack> stacks;
  stacks.reserve(line.stretches.size());
  for (const Stretch& stretch : line.stretches) stacks.push_back(stack_of(harmony.chords[stretch.first].chord));
  std::vector<Arpeggio> arpeggios;
  std::optional<HeardNote>
      climbed;  // a note of the last climb: after it, no descent in its chord and phrase is straight
  for (const Run& run : best_runs(candidate_runs(line, stacks, labels))) {
    const HeardNote& first = line.notes[run.members.front()];
    Arpeggio arpeggio = described(run, line, stacks[*first.stretch], harmony, labels);
    const bool after_climb = climbed && climbed->stretch == first.stretch && climbed->phrase == first.phrase;
    const bool comes_down = arpeggio.direction == Direction::descending || begins_downward(run, line);
    arpeggio.straight_descent = comes_down && !after_climb;
    if (passes_through(run, line, 1)) climbed = first;
    arpeggios.push_back(std::move(arpeggio));
  }
  return arpeggios;
}

}  // namespace insideline
