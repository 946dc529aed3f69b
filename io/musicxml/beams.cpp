#include "io/musicxml/beams.hpp"

#include "analyzer/notation/note_values.hpp"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <span>

namespace insideline::io {
namespace {

/// What matters of a symbol: how many beams it may have and in which beat it lies; rests have no beams.
struct Flagged {
  int flags = 0;
  std::int64_t beat = 0;
};

int flags_of(const WrittenSymbol& symbol) {
  if (!symbol.note) return 0;
  int flags = 0;
  for (int divisor = 8; divisor <= symbol.value.divisor; divisor *= 2) ++flags;
  return flags;
}

std::vector<Flagged> flagged(const WrittenBar& bar, const Meter& meter) {
  std::vector<Flagged> symbols;
  Beats place;
  for (const WrittenGroup& group : bar.groups)
    for (const WrittenSymbol& symbol : group.symbols) {
      symbols.push_back({flags_of(symbol), whole_units(place, reading_beat(meter))});
      place += length_of(symbol.value) * Beats(group.in_time_of, group.notes);
    }
  return symbols;
}

/// One level of the beams within a group: `at` counts in the group.
std::string_view beam_at(std::span<const Flagged> group, std::size_t at, int level) {
  const bool before = at > 0 && group[at - 1].flags >= level;
  const bool after = at + 1 < group.size() && group[at + 1].flags >= level;
  if (before) return after ? "continue" : "end";
  if (after) return "begin";
  return at + 1 < group.size() ? "forward hook" : "backward hook";
}

}  // namespace

std::vector<std::vector<std::string_view>> beams_of(const WrittenBar& bar, const Meter& meter) {
  const std::vector<Flagged> symbols = flagged(bar, meter);
  std::vector<std::vector<std::string_view>> beams(symbols.size());
  for (std::size_t first = 0; first < symbols.size();) {
    std::size_t end = first;
    while (end < symbols.size() && symbols[end].flags > 0 && symbols[end].beat == symbols[first].beat) ++end;
    const auto group = std::span(symbols).subspan(first, end - first);
    for (std::size_t at = 0; group.size() > 1 && at < group.size(); ++at)
      for (int level = 1; level <= group[at].flags; ++level) beams[first + at].push_back(beam_at(group, at, level));
    first = std::max(end, first + 1);
  }
  return beams;
}

}  // namespace insideline::io
