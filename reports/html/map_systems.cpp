// The bars of a solo cut into systems.
#include "reports/html/map_systems.hpp"

#include <algorithm>
#include <numeric>

namespace insideline::reports {
namespace {

/// 0 before the form begins.
int chorus_of(const Harmony& harmony, const Bar& bar) {
  if (bar.number < 1 || bar.onset < harmony.first_chorus) return 0;
  if (harmony.chorus_length <= Beats(0)) return 1;
  return static_cast<int>(whole_units(bar.onset - harmony.first_chorus, harmony.chorus_length)) + 1;
}

void number_slots(std::vector<MapSystem>& systems) {
  int chorus = 0;
  int slot = -1;
  for (MapSystem& system : systems) {
    if (system.chorus == 0) {
      system.slot = -1;
      continue;
    }
    slot = system.chorus == chorus ? slot + 1 : 0;
    chorus = system.chorus;
    system.slot = slot;
  }
}

void share_out_notes(const Solo& solo, std::vector<MapSystem>& systems) {
  std::size_t note = 0;
  for (MapSystem& system : systems) {
    system.first_note = note;
    while (note < solo.notes.size() && (solo.notes[note].onset < system.end || &system == &systems.back())) ++note;
    system.end_note = note;
  }
}

}  // namespace

std::size_t bars_a_system(const Solo& solo) {
  constexpr std::size_t usual = 4;
  constexpr std::size_t crowded = 2;
  constexpr double room_for_a_degree = 3.5;  // notes a quarter that still get their degrees side by side
  constexpr double quarters_usual = 16.0;
  double quarters = 0.0;
  double longest_bar = 0.0;
  for (const Bar& bar : solo.bars) {
    quarters += to_double(bar.length);
    longest_bar = std::max(longest_bar, to_double(bar.length));
  }
  const auto quick = static_cast<std::size_t>(std::ranges::count_if(
      solo.notes, [](const Note& note) { return !note.grace && to_double(note.duration) * room_for_a_degree <= 1.0; }));
  if (quarters <= 0.0 || longest_bar <= 0.0) return usual;
  const bool many_quick = quick * 5 > solo.notes.size();
  const bool long_bars = longest_bar * static_cast<double>(usual) > quarters_usual * 1.5;
  return many_quick || long_bars ? crowded : usual;
}

std::vector<MapSystem> map_systems(const Report& report) {
  const Solo& solo = report.solo;
  const std::size_t most = bars_a_system(solo);
  std::vector<MapSystem> systems;
  for (std::size_t i = 0; i < solo.bars.size(); ++i) {
    const Bar& bar = solo.bars[i];
    const int chorus = chorus_of(report.analysis.harmony, bar);
    const bool full = systems.empty() || i - systems.back().first_bar >= most;
    const bool after_pickup = !systems.empty() && solo.bars[systems.back().first_bar].number < 1;
    if (full || after_pickup || systems.back().chorus != chorus)
      systems.emplace_back(MapSystem{.first_bar = i, .last_bar = i, .chorus = chorus, .onset = bar.onset, .end = {}});
    systems.back().last_bar = i;
    systems.back().end = bar.onset + bar.length;
  }
  number_slots(systems);
  share_out_notes(solo, systems);
  return systems;
}

std::vector<std::size_t> stacked_order(const std::vector<MapSystem>& systems) {
  std::vector<std::size_t> order(systems.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::ranges::stable_sort(order, {}, [&](std::size_t i) { return systems[i].slot; });
  return order;
}

}  // namespace insideline::reports
