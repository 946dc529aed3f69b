#include "io/changes/beat_shares.hpp"

#include <numeric>

namespace insideline::io {
namespace {

/// `pulses` whole pulses among `chords` chords (no more than pulses), the first ones longer.
std::vector<Beats> whole_pulses(int pulses, int chords, const Beats& pulse) {
  std::vector<Beats> lengths;
  for (int i = 0; i < chords; ++i) lengths.push_back(Beats(pulses / chords + (i < pulses % chords ? 1 : 0)) * pulse);
  return lengths;
}

}  // namespace

int felt_beats(const Meter& meter) {
  const bool compound = meter.unit >= 8 && meter.beats > 3 && meter.beats % 3 == 0;
  return compound ? meter.beats / 3 : meter.beats;
}

std::optional<std::vector<Beats>> shared_beats(const Meter& meter, int chords) {
  const Beats bar = bar_length(meter);
  const int felt = felt_beats(meter);
  if (chords <= felt) return whole_pulses(felt, chords, bar / felt);
  if (chords <= meter.beats) return whole_pulses(meter.beats, chords, beat_length(meter));
  const int quarters = meter.beats * 4 / meter.unit;
  if (meter.unit <= 2 && chords <= quarters) return whole_pulses(quarters, chords, 1);
  if (chords % meter.beats != 0) return std::nullopt;
  return std::vector<Beats>(static_cast<std::size_t>(chords), bar / chords);
}

std::optional<std::vector<Beats>> given_beats(const Meter& meter, const std::vector<int>& beats) {
  const int sum = std::accumulate(beats.begin(), beats.end(), 0);
  if (sum != meter.beats && sum != felt_beats(meter)) return std::nullopt;
  std::vector<Beats> lengths;
  for (const int count : beats) lengths.push_back(Beats(count) * bar_length(meter) / sum);
  return lengths;
}

}  // namespace insideline::io
