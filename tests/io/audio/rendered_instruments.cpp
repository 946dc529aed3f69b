// Every instrument of the table as a sound font has it, heard: prints how much of it and how late, and fails where an
// instrument is below its bound.
#include "io/read_solo.hpp"
#include "tests/support/rendered_line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <cstdio>
#include <exception>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace {

using insideline::tests::HeardScore;
using insideline::tests::Rendering;
using insideline::tests::Voice;

constexpr int skipped = 77;

/// What is asked of an instrument: of a hundred notes so many heard, and of those heard so many right. Low where the
/// sound font's own notes begin late or run into each other (DEVELOPERS.md).
struct Bound {
  std::string_view name;
  int least_recall = 97;
  int least_precision = 97;
};
constexpr std::array lower_bounds{
    Bound{"flute", 95, 97}, Bound{"oboe", 82, 90},  Bound{"trumpet", 90, 90},     Bound{"flugelhorn", 90, 90},
    Bound{"horn", 70, 90},  Bound{"cello", 90, 97}, Bound{"double-bass", 34, 55}, Bound{"vibraphone", 80, 95},
};

Bound bound_of(const Voice& voice) {
  const auto* const found = std::ranges::find(lower_bounds, voice.name, &Bound::name);
  return found == lower_bounds.end() ? Bound{voice.name} : *found;
}

double at_share(const std::vector<double>& sorted, double share) {
  return sorted.empty() ? 0.0 : sorted[static_cast<std::size_t>(share * static_cast<double>(sorted.size()))];
}

bool is_heard_well(const Voice& voice, const insideline::Solo& solo, const Rendering& how) {
  const auto range = range_of(voice);
  const auto notes = sounded_notes(solo, range, how);
  const auto line = insideline::tests::heard_in(rendered(notes, voice.program, how), range);
  const HeardScore score = score_of(notes, line.notes);
  const auto unsure = std::ranges::count_if(line.notes, [](const auto& note) { return !is_sure(note); });
  const Bound bound = bound_of(voice);
  const bool good = score.recall() >= bound.least_recall && score.precision() >= bound.least_precision;
  fmt::print(
      "{:<14} recall {:5.1f} precision {:5.1f}  later by {:3.0f} ms, nine in ten by {:3.0f} at most; unsure {}; "
      "tuning {:+.0f} cents; pitched {:.2f}{}\n",
      voice.name, score.recall(), score.precision(), at_share(score.delays_ms, 0.5), at_share(score.delays_ms, 0.9),
      unsure, line.tuning_cents, line.pitched_share, good ? "" : "   BELOW ITS BOUND");
  return good;
}

int run(std::span<char*> arguments) {
  if (arguments.size() != 7) return fmt::print(stderr, "PIECE FONT TEMPO CENTS ROOM BARS\n"), 2;
  const Rendering how{.font = arguments[2],
                      .tempo_bpm = std::stod(arguments[3]),
                      .cents = std::stoi(arguments[4]),
                      .room = arguments[5],
                      .bars = std::stoi(arguments[6])};
  if (const auto absent = insideline::tests::absent_for_rendering(how.font)) {
    fmt::print("{} instruments not heard: {}\n", insideline::tests::voices().size(), *absent);
    return skipped;
  }
  const insideline::Solo solo = insideline::io::read_solo(arguments[1]).solo;
  int below = 0;
  for (const Voice& voice : insideline::tests::voices()) below += is_heard_well(voice, solo, how) ? 0 : 1;
  return below == 0 ? 0 : 1;
}

}  // namespace

int main(int count, char** arguments) {
  try {
    return run(std::span(arguments, static_cast<std::size_t>(count)));
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 1;
  }
}
