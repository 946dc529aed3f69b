#include "analyzer/patterns/digital_patterns.hpp"

#include <algorithm>
#include <array>
#include <optional>
#include <span>

namespace insideline {
namespace {

constexpr std::size_t notes_of_pattern = 4;
constexpr int minor_third = 3;
constexpr int major_third = 4;
constexpr int fifth = 7;

// Common practice, no source.
constexpr std::array<std::array<int, notes_of_pattern>, 5> patterns_in_use = {
    {{1, 2, 3, 5}, {5, 3, 2, 1}, {1, 3, 4, 5}, {5, 4, 3, 1}, {1, 2, 3, 1}}};

constexpr bool all_begin_on_one_or_five() {
  return std::ranges::all_of(patterns_in_use, [](const auto& steps) { return steps[0] == 1 || steps[0] == 5; });
}
static_assert(all_begin_on_one_or_five());

/// Semitones above the root; `third` is the chord's own.
int semitones_of(int step, int third) {
  constexpr std::array<int, 6> above = {0, 0, 2, 0, 5, fifth};
  return step == 3 ? third : above.at(static_cast<std::size_t>(step));
}

bool is_pattern(std::span<const HeardNote> notes, std::span<const int> steps, int root, int third) {
  if (notes[0].pitch_class != pitch_class_of(root + semitones_of(steps[0], third))) return false;
  for (std::size_t i = 1; i < notes.size(); ++i)
    if (notes[i].midi - notes[0].midi != semitones_of(steps[i], third) - semitones_of(steps[0], third)) return false;
  return true;
}

std::string name_of(std::span<const int> steps, int third) {
  std::string name;
  for (const int step : steps)
    name +=
        (name.empty() ? "" : " ") + std::string(step == 3 && third == minor_third ? "b" : "") + std::to_string(step);
  return name;
}

bool is_even_over_one_chord(const HeardLine& line, const LineMoves& moves, std::size_t first) {
  for (std::size_t i = first + 1; i < first + notes_of_pattern; ++i)
    if (moves.shapes[i] == no_move || moves.waits[i] != moves.waits[first + 1] ||
        line.notes[i].stretch != line.notes[first].stretch)
      return false;
  return true;
}

std::optional<DigitalPattern> pattern_from(const HeardLine& line, const LineMoves& moves, const Harmony& harmony,
                                           std::size_t first) {
  const HeardNote& note = line.notes[first];
  if (!note.stretch || !note.on_beat || !is_even_over_one_chord(line, moves, first)) return std::nullopt;
  const std::size_t chord = line.stretches[*note.stretch].first;
  const int root = pitch_class(harmony.chords[chord].chord.root);
  const int above_root = pitch_class_of(note.pitch_class - root);
  if (above_root != 0 && above_root != fifth) return std::nullopt;  // where all patterns begin
  const auto third_of_chord = third_of(harmony.chords[chord].chord);
  if (!third_of_chord) return std::nullopt;
  const int third = pitch_class_above_root(*third_of_chord);
  if (third != minor_third && third != major_third) return std::nullopt;
  const auto notes = std::span(line.notes).subspan(first, notes_of_pattern);
  for (const auto& steps : patterns_in_use)
    if (is_pattern(notes, steps, root, third))
      return DigitalPattern{
          .first = note.note, .last = notes.back().note, .chord = chord, .steps = name_of(steps, third)};
  return std::nullopt;
}

}  // namespace

std::vector<DigitalPattern> find_digital_patterns(const HeardLine& line, const LineMoves& moves,
                                                  const Harmony& harmony) {
  std::vector<DigitalPattern> found;
  for (std::size_t first = 0; first + notes_of_pattern <= line.notes.size(); ++first) {
    const auto pattern = pattern_from(line, moves, harmony, first);
    if (!pattern) continue;
    found.push_back(*pattern);
    first += notes_of_pattern - 1;
  }
  return found;
}

}  // namespace insideline
