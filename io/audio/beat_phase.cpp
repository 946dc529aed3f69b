#include "io/audio/beat_phase.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

namespace insideline::io {
namespace {

/// The longer it is until the next note, the likelier a note stands on a beat: the first of two swung eighths is
/// longer, and long notes begin there (common practice, no source). More than a beat says no more.
std::vector<double> weights_of(std::span<const HeardNote> notes, double beat_seconds) {
  constexpr double half = 0.5;  // of the last note nothing is known
  std::vector<double> weights;
  for (std::size_t i = 0; i + 1 < notes.size(); ++i)
    weights.push_back(std::min(1.0, (notes[i + 1].onset_seconds - notes[i].onset_seconds) / beat_seconds));
  weights.push_back(half);
  return weights;
}

}  // namespace

/// Notes count by their angles on a circle of one beat: on the beat most, on its half some, as off-beats are as many
/// but rarely more.
BeatPhase beat_phase(std::span<const HeardNote> notes, double beat_seconds) {
  constexpr std::size_t steps = 48;
  // A chord tone says seven times as much: players who push hold off-beats for long. Our choice, no source.
  constexpr double for_each_beat = 0.05;
  const std::vector<double> weights = weights_of(notes, beat_seconds);
  const double first = notes.front().onset_seconds;
  const auto place = [&](std::size_t step) { return first + beat_seconds * static_cast<double>(step) / steps; };
  std::array<double, steps> fits{};
  for (std::size_t step = 0; step < steps; ++step)
    for (std::size_t i = 0; i < notes.size(); ++i) {
      const double angle = 2.0 * std::numbers::pi * (notes[i].onset_seconds - place(step)) / beat_seconds;
      fits.at(step) += weights[i] * (std::cos(angle) + std::cos(2.0 * angle));
    }
  constexpr double rounding = 1e-9;
  std::size_t best = 0;
  for (std::size_t step = 1; step < steps; ++step)
    if (fits.at(step) > fits.at(best) + rounding) best = step;
  // Half a beat off, or where swing puts the half.
  std::size_t other = (best + steps / 2) % steps;
  for (std::size_t off = steps / 4; off <= 3 * steps / 4; ++off)
    if (const std::size_t step = (best + off) % steps; fits.at(step) > fits.at(other) + rounding) other = step;
  return {place(best), place(other), for_each_beat * (fits.at(best) - fits.at(other))};
}

}  // namespace insideline::io
