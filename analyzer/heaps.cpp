#include "analyzer/heaps.hpp"

#include "analyzer/played_stacks.hpp"

#include <algorithm>
#include <bit>
#include <cstdlib>
#include <iterator>
#include <optional>

namespace insideline {
namespace {

using Slot = std::optional<Member>;

const Slot& slot_of(const HeardLine& line, const Stack& stack, std::size_t i) {
  return stack.at(static_cast<std::size_t>(line.notes[i].pitch_class));
}

/// Somewhere it leaps to or from a colour that is not the next third.
bool is_heap(const Run& run, const HeardLine& line, const Stack& stack) {
  if (run.played || run.colours == 0) return false;
  for (std::size_t at = 1; at < run.members.size(); ++at) {
    const Slot& from = slot_of(line, stack, run.members[at - 1]);
    const Slot& to = slot_of(line, stack, run.members[at]);
    if (!from || !to || line.notes[run.members[at - 1]].midi == line.notes[run.members[at]].midi) continue;
    if ((from->extension || to->extension) && std::abs(steps_in_stack(*from, *to)) != 1) return true;
  }
  return false;
}

bool is_whole(const Run& run, const HeardLine& line) {
  constexpr std::ptrdiff_t with_seventh = 4;
  const Stack stack = stack_of(*run.played);
  const auto tones = std::ranges::count_if(stack, [](const Slot& slot) { return slot.has_value(); });
  unsigned set = 0;
  for (const std::size_t i : run.members) set |= 1U << line.notes[i].pitch_class;
  return tones <= with_seventh && std::popcount(set) == tones;
}

bool has_two_colours(const Run& run, const HeardLine& line, const Stack& below) {
  unsigned set = 0;
  for (const std::size_t i : run.members)
    if (const Slot& slot = slot_of(line, below, i); slot && slot->extension) set |= 1U << line.notes[i].pitch_class;
  return std::popcount(set) >= 2;
}

}  // namespace

void drop_heaps(std::vector<Run>& runs, const HeardLine& line, std::span<const Stack> stacks) {
  std::vector<Run> played;
  std::ranges::copy_if(runs, std::back_inserter(played),
                       [&](const Run& run) { return run.played && is_whole(run, line); });
  if (played.empty()) return;
  std::erase_if(runs, [&](const Run& heap) {
    const Stack& below = stacks[heap.stretch];
    return is_heap(heap, line, below) && std::ranges::any_of(played, [&](const Run& chord) {
             const bool meet = first_of(chord) < last_of(heap) && first_of(heap) < last_of(chord);
             return meet && !std::ranges::includes(heap.members, chord.members) && has_two_colours(chord, line, below);
           });
  });
}

}  // namespace insideline
