#include "tests/support/human_timing.hpp"

#include <algorithm>
#include <random>
#include <set>

namespace insideline::tests {
namespace {

constexpr double grace_seconds = 0.05;
constexpr double closest_seconds = 0.008;
constexpr double shortest_seconds = 0.03;

/// The beats, by number from the first bar, in which something finer than an eighth begins.
std::set<std::int64_t> even_beats(const Solo& solo) {
  std::set<std::int64_t> even;
  for (const Note& note : solo.notes)
    if (remainder_within(note.onset, Beats(1, 2)) != Beats(0)) even.insert(whole_units(note.onset, 1));
  return even;
}

double swung(const Beats& place, double off_beat, bool even) {
  const std::int64_t beat = whole_units(place, 1);
  const double within = to_double(remainder_within(place, 1));
  if (even) return static_cast<double>(beat) + within;
  const double moved = within < 0.5 ? within * 2.0 * off_beat : off_beat + (within - 0.5) * 2.0 * (1.0 - off_beat);
  return static_cast<double>(beat) + moved;
}

}  // namespace

std::vector<PlayedNote> played(const Solo& solo, const Take& take) {
  std::mt19937 engine(take.seed);  // NOLINT(cert-msc51-cpp): a take must be the same each time
  std::normal_distribution<double> jitter(0.0, 1.0);
  const double quarter = 60.0 / take.tempo_bpm;
  const double off_beat = take.swing_ratio / (1.0 + take.swing_ratio);
  const std::set<std::int64_t> even = even_beats(solo);
  const double start = to_double(solo.bars.front().onset);
  const auto seconds = [&](const Beats& place) {
    const bool is_even = even.contains(whole_units(place, 1));
    return lead_seconds + (swung(place, off_beat, is_even) - start) * quarter;
  };
  std::vector<PlayedNote> takes;
  for (const Note& note : solo.notes) {
    const double onset = seconds(note.onset) + take.late_seconds + take.jitter_seconds * jitter(engine);
    const double end = seconds(end_of(note)) + take.jitter_seconds * jitter(engine);
    takes.push_back({onset, end});
  }
  for (std::size_t i = takes.size(); i-- > 0;)
    if (solo.notes[i].grace && i + 1 < takes.size())
      takes[i].onset_seconds = takes[i + 1].onset_seconds - grace_seconds;
  for (std::size_t i = 1; i < takes.size(); ++i)
    takes[i].onset_seconds = std::max(takes[i].onset_seconds, takes[i - 1].onset_seconds + closest_seconds);
  for (std::size_t i = 0; i < takes.size(); ++i) {
    takes[i].end_seconds = std::max(takes[i].end_seconds, takes[i].onset_seconds + shortest_seconds);
    if (i + 1 < takes.size()) takes[i].end_seconds = std::min(takes[i].end_seconds, takes[i + 1].onset_seconds);
  }
  return takes;
}

}  // namespace insideline::tests
