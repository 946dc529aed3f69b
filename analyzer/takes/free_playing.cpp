#include "analyzer/takes/free_playing.hpp"

#include <algorithm>

namespace insideline {
namespace {

/// The bars of the take, and those that its last chorus still has.
std::vector<Bar> bars_of_the_form(const Solo& take, const Harmony& harmony) {
  std::vector<Bar> bars;
  for (const Bar& bar : take.bars)
    if (bar.number > 0) bars.push_back(bar);
  if (bars.empty() || harmony.chorus_length <= Beats(0)) return bars;
  const Beats last_begins = harmony.first_chorus + harmony.chorus_length * Beats(harmony.choruses - 1);
  if (harmony.choruses > 1 && bars.back().onset <= last_begins) return bars;  // the last note of a solo, no chorus
  const Beats form_end = last_begins + harmony.chorus_length;
  while (bars.back().onset + bars.back().length < form_end) {
    Bar next = bars.back();
    next.onset = next.onset + next.length;
    next.length = bar_length(next.meter);
    ++next.number;
    bars.push_back(next);
  }
  return bars;
}

}  // namespace

FreePlaying free_playing(const Solo& take, const Analysis& analysis) {
  FreePlaying found;
  bool in_run = false;
  auto note = take.notes.begin();
  for (const Bar& bar : bars_of_the_form(take, analysis.harmony)) {
    const Beats end = bar.onset + bar.length;
    const bool in_take = bar.onset < end_of(take);
    if (in_take && !chord_index_at(analysis.harmony, bar.onset)) continue;
    while (note != take.notes.end() && end_of(*note) <= bar.onset) ++note;
    ++found.bars.of;
    if (note != take.notes.end() && note->onset < end) {
      ++found.bars.count;
      in_run = false;
      continue;
    }
    const std::string name = std::to_string(bar.number);
    if (!in_run) found.silent.push_back({name, name});
    found.silent.back().last = name;
    in_run = true;
  }
  return found;
}

bool is_played_out(const FreePlaying& playing) {
  constexpr int most_silent = 4;  // one bar of so many
  return (playing.bars.of - playing.bars.count) * most_silent <= playing.bars.of;
}

}  // namespace insideline
