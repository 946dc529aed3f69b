#include "io/midi/beat_hold.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>

namespace insideline::io {
namespace {

// Of lines that know nothing of the beats, 1 in e^x reaches x at one division; what keeps to them gathers more the more
// notes there are. Measured on generated takes cut short (Decisions, 2026-11-29).
constexpr double chance_reaches = 6.0;
constexpr double notes_a_unit = 30.0;
constexpr std::size_t fewest_to_tell = 100;

/// How much the notes gather around the `parts` places of a division of the beat: their number times the square of the
/// mean direction.
double gathering(std::span<const TimedNote> notes, std::span<const BeatCell> cells, int parts) {
  double along = 0.0;
  double across = 0.0;
  std::size_t hint = 0;
  for (const TimedNote& note : notes) {
    hint = cell_at(cells, note.onset_seconds, hint);
    const double place = (note.onset_seconds - cells[hint].onset_seconds) / cells[hint].length_seconds;
    const double angle = 2.0 * std::numbers::pi * parts * place;
    along += std::cos(angle);
    across += std::sin(angle);
  }
  return (along * along + across * across) / static_cast<double>(notes.size());
}

}  // namespace

bool keeps_to_beats(std::span<const TimedNote> notes, std::span<const BeatCell> cells) {
  constexpr std::array divisions = {1, 2, 3, 4, 6};
  if (notes.size() < fewest_to_tell) return true;
  const double asked = std::min(chance_reaches, static_cast<double>(notes.size()) / notes_a_unit);
  return std::ranges::any_of(divisions, [&](int parts) { return gathering(notes, cells, parts) >= asked; });
}

}  // namespace insideline::io
