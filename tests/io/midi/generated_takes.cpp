#include "tests/io/midi/generated_takes.hpp"

#include "io/midi/quantize.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>
#include <span>

namespace insideline::tests {
namespace {

using io::BeatCell;
using io::units_per_quarter;

constexpr int beats_in_take = 160;
constexpr int beats_before = 4;
constexpr double closest_onsets_seconds = 0.02;

double within(std::mt19937& engine, double low, double high) {
  return std::uniform_real_distribution<double>(low, high)(engine);
}

double bell(std::mt19937& engine, double spread) { return std::normal_distribution<double>(0.0, spread)(engine); }

bool happens(std::mt19937& engine, double share) { return within(engine, 0.0, 1.0) < share; }

/// Beats whose length wanders by some hundredths.
std::vector<BeatCell> drifting_beats(double tempo_bpm, std::mt19937& engine) {
  constexpr double kept = 0.9;
  constexpr double step = 0.008;
  std::vector<BeatCell> cells;
  double seconds = 1.0;
  double drift = 0.0;
  for (int beat = 0; beat < beats_in_take + beats_before; ++beat) {
    drift = kept * drift + bell(engine, step);
    const double length = 60.0 / tempo_bpm * (1.0 + drift);
    cells.push_back({beat * units_per_quarter, units_per_quarter, seconds, length, io::BeatKind::simple});
    seconds += length;
  }
  return cells;
}

struct Figure {
  int parts = 2;
  std::vector<int> struck;
  double weight = 1.0;
};

// How often a beat of an improvised line is which figure; common practice, no source.
const std::vector<Figure>& figures() {
  static const std::vector<Figure> all = {
      {2, {0, 1}, 46.0},
      {2, {0}, 12.0},
      {2, {1}, 9.0},
      {2, {}, 10.0},
      {3, {0, 1, 2}, 5.0},
      {3, {1, 2}, 1.5},
      {3, {0, 1}, 0.7},
      {4, {0, 1, 2, 3}, 7.0},
      {4, {0, 1, 2}, 1.5},
      {4, {0, 2, 3}, 3.0},
      {4, {0, 3}, 1.0},
      {4, {1, 2, 3}, 1.0},
      {4, {3}, 0.7},
      {4, {2, 3}, 0.8},
      {6, {0, 1, 2, 3, 4, 5}, 1.0},
      {5, {0, 1, 2, 3, 4}, 0.4},
      {8, {0, 1, 2, 3, 4, 5, 6, 7}, 0.6},
      {7, {0, 1, 2, 3, 4, 5, 6}, 0.2},
  };
  return all;
}

/// A figure whose parts fingers can still play at this tempo, often the one of the beat before.
const Figure& next_figure(const Figure& before, double beat_seconds, std::mt19937& engine) {
  constexpr double shortest_part = 0.065;
  constexpr double same_again = 0.35;
  if (!before.struck.empty() && happens(engine, same_again)) return before;
  std::vector<double> weights;
  for (const Figure& figure : figures())
    weights.push_back(beat_seconds / figure.parts >= shortest_part ? figure.weight : 0.0);
  std::discrete_distribution<std::size_t> choice(weights.begin(), weights.end());
  return figures()[choice(engine)];
}

/// One player on one day.
struct Player {
  double late = 0.0;          ///< in beats, in the middle
  double off_beat = 0.5;      ///< where the second eighth sounds
  double spread_seconds = 0;  ///< of each onset
};

Player player_at(double tempo_bpm, std::mt19937& engine) {
  constexpr double slow_bpm = 60.0;
  constexpr double fast_bpm = 280.0;
  constexpr double slow_ratio = 2.5;
  constexpr double fast_ratio = 1.1;
  const double ratio =
      std::clamp(slow_ratio + (tempo_bpm - slow_bpm) / (fast_bpm - slow_bpm) * (fast_ratio - slow_ratio), 1.0, 2.5) +
      within(engine, -0.2, 0.2);
  const double laid_back = within(engine, 0.0, 1.0);  // most players are little behind, few by much
  return {0.12 * laid_back * laid_back, std::max(ratio, 1.0) / (1.0 + std::max(ratio, 1.0)),
          within(engine, 0.010, 0.025)};
}

/// Puts the notes in order, gives them ends, and takes out what would be struck at once.
void finish(GeneratedTake& take) {
  std::vector<io::TimedNote>& notes = take.notes;
  for (std::size_t i = 1; i < notes.size(); ++i)
    notes[i].onset_seconds = std::max(notes[i].onset_seconds, notes[i - 1].onset_seconds + closest_onsets_seconds);
  for (std::size_t i = 0; i < notes.size(); ++i) {
    constexpr double longest_seconds = 0.4;
    notes[i].end_seconds = notes[i].onset_seconds + longest_seconds;
    if (i + 1 < notes.size()) notes[i].end_seconds = std::min(notes[i].end_seconds, notes[i + 1].onset_seconds);
  }
}

void add_note(GeneratedTake& take, double seconds, std::int64_t written, bool grace) {
  take.notes.push_back({seconds, seconds});
  take.written.push_back({written, grace});
}

/// The places of one beat written as literally as they lie: the plainest division near enough to all of them.
std::vector<std::int64_t> literal_places(std::span<const double> into_beat, double patience) {
  struct Division {
    std::int64_t parts;
    double near_enough;
  };
  const std::array divisions = {Division{2, patience}, Division{3, 0.08}, Division{4, 0.125}, Division{6, 0.07},
                                Division{8, 0.0625}};
  const double most_swung = 0.52 + patience;
  std::vector<std::int64_t> places;
  for (const Division& division : divisions) {
    places.clear();
    bool fits = true;
    for (const double into : into_beat) {
      const bool swung = division.parts == 2 && into > 0.5 && into < most_swung;
      const auto part =
          swung ? 1 : static_cast<std::int64_t>(std::floor(into * static_cast<double>(division.parts) + 0.5));
      const double away = std::abs(into - static_cast<double>(part) / static_cast<double>(division.parts));
      const std::int64_t place = part * units_per_quarter / division.parts;
      fits = fits && (swung || away <= division.near_enough) && (places.empty() || places.back() < place);
      places.push_back(place);
    }
    if (fits) return places;
  }
  return places;
}

/// What is struck in a beat of the second kind of take, in beats, before anything human happens to it.
std::vector<double> struck_in_beat(double beat_seconds, std::mt19937& engine) {
  const double ratio = std::exp(0.30 * std::min(1.0, beat_seconds / 0.4) + bell(engine, 0.22));
  const double off_beat = ratio / (1.0 + ratio);
  const double chance = within(engine, 0.0, 1.0);
  const bool slow = beat_seconds > 0.32;
  if (chance < 0.10) return {};
  if (chance < 0.20) return {0.0};
  if (chance < 0.29) return {off_beat};
  if (chance < 0.32) return {happens(engine, 0.5) ? 0.25 : 0.75};
  if (chance < (slow ? 0.66 : 0.86)) return {0.0, off_beat};
  if (chance < (slow ? 0.69 : 0.89)) return {1.0 / 3, 2.0 / 3};
  if (chance < (slow ? 0.77 : 0.97)) return {0.0, 1.0 / 3, 2.0 / 3};
  if (chance < 0.83 || !slow) return {0.0, 0.5, 0.75};
  if (chance < 0.86) return {0.25, 0.5, 0.75};
  if (chance < 0.89) return {0.0, 0.25, 0.5};
  return {0.0, 0.25, 0.5, 0.75};
}

}  // namespace

GeneratedTake take_of_a_page(double tempo_bpm, unsigned seed) {
  constexpr double lateness_kept = 0.92;
  constexpr double lateness_step = 0.009;
  constexpr double off_beat_wanders = 0.02;
  constexpr double late_pair_share = 0.04;
  constexpr double grace_share = 0.02;
  std::mt19937 engine(seed);
  GeneratedTake take{{}, drifting_beats(tempo_bpm, engine), {}};
  const Player player = player_at(tempo_bpm, engine);
  double drift = 0.0;
  const Figure* figure = &figures().front();
  for (int beat = beats_before; beat < beats_in_take; ++beat) {
    const BeatCell& cell = take.cells[static_cast<std::size_t>(beat)];
    drift = lateness_kept * drift + bell(engine, lateness_step);
    double late = std::clamp(player.late + drift, -0.02, 0.14);
    figure = &next_figure(*figure, cell.length_seconds, engine);
    if (figure->parts == 2 && happens(engine, late_pair_share)) late += within(engine, 0.05, 0.09);
    for (const int part : figure->struck) {
      const double even = static_cast<double>(part) / figure->parts;
      const double place = figure->parts == 2 && part == 1 ? player.off_beat + bell(engine, off_beat_wanders) : even;
      const double seconds =
          cell.onset_seconds + (place + late) * cell.length_seconds + bell(engine, player.spread_seconds);
      const std::int64_t written = cell.onset + cell.length * part / figure->parts;
      if (figure->parts == 2 && happens(engine, grace_share))
        add_note(take, seconds - within(engine, 0.04, 0.08), written, true);
      add_note(take, seconds, written, false);
    }
  }
  finish(take);
  return take;
}

GeneratedTake take_written_literally(double tempo_bpm, unsigned seed) {
  constexpr double lateness_kept = 0.85;
  constexpr double lateness_step = 0.006;
  constexpr double tail_seconds = 0.013;
  constexpr double pushed = 0.88;  // from here on a note is written on the next beat
  std::mt19937 engine(seed);
  GeneratedTake take{{}, drifting_beats(tempo_bpm, engine), {}};
  const double usually_late = within(engine, -0.005, 0.045);
  const double patience = within(engine, 0.16, 0.24);
  std::exponential_distribution<double> tail(1.0 / tail_seconds);
  double drift = 0.0;
  for (int beat = beats_before; beat < beats_in_take; ++beat) {
    const BeatCell& cell = take.cells[static_cast<std::size_t>(beat)];
    drift = lateness_kept * drift + bell(engine, lateness_step);
    for (const double place : struck_in_beat(cell.length_seconds, engine)) {
      const double noise = happens(engine, 0.5) ? tail(engine) : -tail(engine);
      take.notes.push_back({cell.onset_seconds + place * cell.length_seconds + usually_late + drift + noise, 0.0});
    }
  }
  std::ranges::sort(take.notes, {}, &io::TimedNote::onset_seconds);
  finish(take);
  std::size_t i = 0;
  for (const BeatCell& cell : take.cells) {
    std::vector<double> into_beat;
    const double begin = cell.onset_seconds - (1.0 - pushed) * cell.length_seconds;
    while (i < take.notes.size() && take.notes[i].onset_seconds < begin + cell.length_seconds)
      into_beat.push_back((take.notes[i++].onset_seconds - cell.onset_seconds) / cell.length_seconds);
    for (const std::int64_t place : literal_places(into_beat, patience))
      take.written.push_back({cell.onset + place, false});
  }
  return take;
}

void WithinASixth::operator+=(const WithinASixth& other) {
  notes += other.notes;
  program += other.program;
  raw += other.raw;
  raw_less_median += other.raw_less_median;
  twelfths += other.twelfths;
}

WithinASixth within_a_sixth(const GeneratedTake& take) {
  constexpr double sixth = units_per_quarter / 6.0 + 1e-6;
  constexpr double twelfth = units_per_quarter / 12.0;
  const auto read = io::quantized(take.notes, take.cells);
  std::vector<double> played;
  std::vector<double> late;
  std::size_t cell = 0;
  for (std::size_t i = 0; i < take.notes.size(); ++i) {
    cell = io::cell_at(take.cells, take.notes[i].onset_seconds, cell);
    const BeatCell& beat = take.cells[cell];
    played.push_back(static_cast<double>(beat.onset) + (take.notes[i].onset_seconds - beat.onset_seconds) /
                                                           beat.length_seconds * static_cast<double>(beat.length));
    late.push_back(played.back() - static_cast<double>(take.written[i].onset));
  }
  std::ranges::nth_element(late, late.begin() + static_cast<std::ptrdiff_t>(late.size() / 2));
  const double median = late[late.size() / 2];
  WithinASixth tally;
  for (std::size_t i = 0; i < take.notes.size(); ++i) {
    if (take.written[i].grace) continue;
    const auto written = static_cast<double>(take.written[i].onset);
    const auto is_near = [&](double place) { return std::abs(place - written) <= sixth ? 1 : 0; };
    ++tally.notes;
    tally.program += is_near(static_cast<double>(read.notes[i].onset));
    tally.raw += is_near(played[i]);
    tally.raw_less_median += is_near(played[i] - median);
    tally.twelfths += is_near(std::round((played[i] - median) / twelfth) * twelfth);
  }
  return tally;
}

}  // namespace insideline::tests
