#include "analyzer/arpeggio_legs.hpp"

#include <algorithm>
#include <bit>
#include <cstdlib>

namespace insideline {
namespace {

constexpr int fewest_in_a_leg = 3;

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

int midi_of(const Run& run, const HeardLine& line, std::size_t at) { return line.notes[run.members[at]].midi; }

/// Members `first` to `last`, if they are enough for a leg.
void add_leg(std::vector<Leg>& legs, const Run& run, const HeardLine& line, const Stack& stack, Leg leg) {
  unsigned set = 0;
  std::size_t lowest = leg.first;
  for (std::size_t at = leg.first; at <= leg.last; ++at) {
    set |= 1U << line.notes[run.members[at]].pitch_class;
    if (midi_of(run, line, at) < midi_of(run, line, lowest)) lowest = at;
  }
  if (std::popcount(set) < fewest_in_a_leg) return;
  leg.inversion = inversion_by_lowest(*stack.at(static_cast<std::size_t>(line.notes[run.members[lowest]].pitch_class)));
  legs.push_back(leg);
}

}  // namespace

std::vector<Leg> legs_of(const Run& run, const HeardLine& line, const Stack& stack) {
  std::vector<Leg> legs;
  const std::size_t last = run.members.size() - 1;
  const Moves moves = moves_of(run, line, stack);
  if (const auto whole = displaced_direction(moves)) {
    add_leg(legs, run, line, stack, {.first = 0, .last = last, .direction = *whole});
    return legs;
  }
  Leg leg;
  int way = 0;
  for (std::size_t at = 1; at <= last; ++at) {
    const int move = midi_of(run, line, at) - midi_of(run, line, at - 1);
    if (move * way < 0) {
      add_leg(legs, run, line, stack, leg);
      leg.first = leg.last;
    }
    if (move != 0) {
      way = move;
      leg.last = at;
      leg.direction = move > 0 ? Direction::ascending : Direction::descending;
    }
  }
  leg.last = last;
  add_leg(legs, run, line, stack, leg);
  return legs;
}

Inversion inversion_by_lowest(const Member& lowest) {
  constexpr Inversion by_place[] = {Inversion::root_position, Inversion::first, Inversion::second, Inversion::third};
  return lowest.place < 4 ? by_place[lowest.place] : Inversion::none;
}

bool is_octave_displaced(const Run& run, const HeardLine& line, const Stack& stack) {
  const Moves moves = moves_of(run, line, stack);
  const bool straight = all_up(moves.semitones) || all_down(moves.semitones);
  const bool wide = std::ranges::any_of(moves.semitones, [](int move) { return std::abs(move) > semitones_in_octave; });
  const bool octave_leap =
      std::ranges::any_of(moves.semitones, [](int move) { return move % semitones_in_octave == 0; });
  return wide || octave_leap || (!straight && displaced_direction(moves).has_value());
}

bool repeats_a_note(const Run& run, const HeardLine& line) {
  for (std::size_t at = 1; at < run.members.size(); ++at)
    if (midi_of(run, line, at) == midi_of(run, line, at - 1)) return true;
  return false;
}

}  // namespace insideline
