#include "analyzer/model/pitch.hpp"

#include <array>
#include <cassert>
#include <charconv>
#include <cstdlib>

namespace insideline {
namespace {

constexpr int steps_per_octave = 7;
constexpr int semitones_per_octave = 12;
constexpr std::array<int, steps_per_octave> semitones_of_step = {0, 2, 4, 5, 7, 9, 11};
constexpr std::string_view letters = "CDEFGAB";

constexpr int floor_mod(int value, int divisor) { return ((value % divisor) + divisor) % divisor; }
constexpr int floor_div(int value, int divisor) { return (value - floor_mod(value, divisor)) / divisor; }

int step_index(Step step) { return static_cast<int>(step); }
Step step_at(int index) { return static_cast<Step>(floor_mod(index, steps_per_octave)); }
int semitones_of(Step step) { return semitones_of_step.at(static_cast<std::size_t>(step)); }

/// Semitones of the major-scale step that lies `steps` above the root, octaves kept.
int major_scale_semitones(int steps) {
  return floor_div(steps, steps_per_octave) * semitones_per_octave + semitones_of(step_at(steps));
}

std::string accidentals(int alter) {
  return std::string(static_cast<std::size_t>(alter < 0 ? -alter : alter), alter < 0 ? 'b' : '#');
}

/// Counts leading flats or sharps and takes them off `text`.
int take_accidentals(std::string_view& text) {
  int alter = 0;
  while (text.starts_with('#') && alter >= 0) {
    ++alter;
    text.remove_prefix(1);
  }
  while (text.starts_with('b') && alter <= 0) {
    --alter;
    text.remove_prefix(1);
  }
  return alter;
}

std::optional<int> parse_number(std::string_view text) {
  int value = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
  if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
  return value;
}

std::optional<NoteName> take_note_name(std::string_view& text) {
  if (text.empty()) return std::nullopt;
  const auto letter = letters.find(text.front());
  if (letter == std::string_view::npos) return std::nullopt;
  text.remove_prefix(1);
  return NoteName{step_at(static_cast<int>(letter)), take_accidentals(text)};
}

}  // namespace

int pitch_class(const NoteName& name) {
  const int sum = semitones_of(name.step) + name.alter;
  return sum >= 0 && sum < semitones_per_octave ? sum : floor_mod(sum, semitones_per_octave);
}

int midi_number(const Pitch& pitch) {
  return (pitch.octave + 1) * semitones_per_octave + semitones_of(pitch.name.step) + pitch.name.alter;
}

int semitones_above_root(const Degree& degree) { return major_scale_semitones(degree.number - 1) + degree.alter; }

int pitch_class_above_root(const Degree& degree) {
  constexpr std::array<int, steps_per_octave> natural = {11, 0, 2, 4, 5, 7, 9};  // of degrees 7 1 2 3 4 5 6
  const int sum = natural.at(static_cast<std::size_t>(degree.number) % steps_per_octave) + degree.alter;
  return sum >= 0 && sum < semitones_per_octave ? sum : floor_mod(sum, semitones_per_octave);
}

NoteName note_at(const NoteName& root, const Degree& degree) {
  return transposed(root, {degree.number - 1, semitones_above_root(degree)});
}

Degree degree_of(const NoteName& name, const NoteName& root) {
  constexpr std::array<int, steps_per_octave> stack_numbers = {1, 9, 3, 11, 5, 13, 7};
  const int steps = floor_mod(step_index(name.step) - step_index(root.step), steps_per_octave);
  const int natural = floor_mod(pitch_class(root) + major_scale_semitones(steps), semitones_per_octave);
  const int difference = floor_mod(pitch_class(name) - natural + 6, semitones_per_octave) - 6;
  return {stack_numbers.at(static_cast<std::size_t>(steps)), difference};
}

NoteName transposed(const NoteName& name, const Interval& by) { return transposed(Pitch{name, 4}, by).name; }

Pitch transposed(const Pitch& pitch, const Interval& by) {
  const int position = pitch.octave * steps_per_octave + step_index(pitch.name.step) + by.steps;
  const Pitch natural{{step_at(position), 0}, floor_div(position, steps_per_octave)};
  return {{natural.name.step, midi_number(pitch) + by.semitones - midi_number(natural)}, natural.octave};
}

Interval interval_between(const Pitch& from, const Pitch& to) {
  const int steps =
      (to.octave - from.octave) * steps_per_octave + step_index(to.name.step) - step_index(from.name.step);
  return {steps, midi_number(to) - midi_number(from)};
}

Interval usual_interval(int semitones) {
  // unison, m2, M2, m3, M3, P4, A4, P5, m6, M6, m7, M7
  constexpr std::array<int, semitones_per_octave> usual_steps = {0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6};
  const int size = semitones < 0 ? -semitones : semitones;
  const int steps = (size / semitones_per_octave) * steps_per_octave +
                    usual_steps.at(static_cast<std::size_t>(size % semitones_per_octave));
  return {semitones < 0 ? -steps : steps, semitones};
}

Pitch spelled_pitch(int midi, const NoteName& name) {
  const int natural = midi - name.alter - semitones_of(name.step);
  assert(floor_mod(natural, semitones_per_octave) == 0 && "the name must sound as the MIDI number");
  return {name, floor_div(natural, semitones_per_octave) - 1};
}

Pitch writable(const Pitch& pitch) {
  constexpr int widest_alteration = 2;
  constexpr std::array<NoteName, semitones_per_octave> names{{{Step::c, 0},
                                                              {Step::c, 1},
                                                              {Step::d, 0},
                                                              {Step::e, -1},
                                                              {Step::e, 0},
                                                              {Step::f, 0},
                                                              {Step::f, 1},
                                                              {Step::g, 0},
                                                              {Step::a, -1},
                                                              {Step::a, 0},
                                                              {Step::b, -1},
                                                              {Step::b, 0}}};
  if (std::abs(pitch.name.alter) <= widest_alteration) return pitch;
  return spelled_pitch(midi_number(pitch), names.at(static_cast<std::size_t>(pitch_class(pitch.name))));
}

std::string to_string(const NoteName& name) {
  return letters.at(static_cast<std::size_t>(name.step)) + accidentals(name.alter);
}

std::string to_string(const Pitch& pitch) { return to_string(pitch.name) + std::to_string(pitch.octave); }

std::string to_string(const Degree& degree) { return accidentals(degree.alter) + std::to_string(degree.number); }

std::optional<NoteName> parse_note_name(std::string_view text) {
  const auto name = take_note_name(text);
  return text.empty() ? name : std::nullopt;
}

std::optional<Pitch> parse_pitch(std::string_view text) {
  const auto name = take_note_name(text);
  const auto octave = parse_number(text);
  if (!name || !octave) return std::nullopt;
  return Pitch{*name, *octave};
}

std::optional<Degree> parse_degree(std::string_view text) {
  const int alter = take_accidentals(text);
  const auto number = parse_number(text);
  if (!number || *number < 1 || *number > 13) return std::nullopt;
  return Degree{*number, alter};
}

}  // namespace insideline
