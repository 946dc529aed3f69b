#include "io/midi/swing.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <functional>
#include <utility>

namespace insideline::io {
namespace {

constexpr double straightest = 0.46;
constexpr double most_swung =
    0.80;  // 4:1; published ratios end at 3.5:1 (Friberg & Sundstroem, Music Perception 19(3), 2002)
constexpr double evenest_seconds = 0.006;
constexpr double loosest_seconds = 0.045;

bool is_off_beat(const Subdivision& figure, const Placed& place) {
  return figure.placing == Placing::swung && figure.parts == 2 && place.part == 1 && !place.grace;
}

constexpr int bins = 48;  // of a beat
using BinDensities = std::array<double, bins>;

/// How probable the notes' places in the beat are, if the second eighth sounds at `off_beat`.
class BeatHistogram {
 public:
  BeatHistogram(std::span<const TimedNote> notes, std::span<const BeatCell> cells) {
    std::size_t cell = 0;
    for (const TimedNote& note : notes) {
      cell = cell_at(cells, note.onset_seconds, cell);
      if (cells[cell].kind != BeatKind::simple) continue;
      const double into = (note.onset_seconds - cells[cell].onset_seconds) / cells[cell].length_seconds;
      const auto bin = static_cast<std::int64_t>(std::floor(into * bins));
      ++counts_.at(static_cast<std::size_t>(std::clamp<std::int64_t>(bin, 0, bins - 1)));
      seconds_ += cells[cell].length_seconds;
      ++notes_;
    }
  }
  [[nodiscard]] bool is_empty() const { return notes_ == 0; }
  [[nodiscard]] double beat_seconds() const { return seconds_ / static_cast<double>(notes_); }

  /// For each bin, how probable a note on the beat is there.
  [[nodiscard]] BinDensities on_beat(double spread) const {
    BinDensities densities{};
    for (std::size_t bin = 0; bin < densities.size(); ++bin)
      densities.at(bin) = bell(place_of(bin), spread) + bell(place_of(bin) - 1.0, spread);
    return densities;
  }

  [[nodiscard]] double log_likelihood(double off_beat, double spread, const BinDensities& on_beat) const {
    constexpr double on_share = 0.45;
    constexpr double off_share = 0.45;
    constexpr double elsewhere = 0.10;
    double sum = 0.0;
    for (std::size_t bin = 0; bin < counts_.size(); ++bin) {
      if (counts_.at(bin) == 0) continue;
      const double density =
          on_share * on_beat.at(bin) + off_share * bell(place_of(bin) - off_beat, spread) + elsewhere;
      sum += counts_.at(bin) * std::log(density);
    }
    return sum;
  }

 private:
  static double place_of(std::size_t bin) { return (static_cast<double>(bin) + 0.5) / bins; }
  static double bell(double distance, double spread) {
    constexpr double root_two_pi = 2.5066282746310002;
    return std::exp(-0.5 * distance * distance / (spread * spread)) / (spread * root_two_pi);
  }
  std::array<int, bins> counts_{};
  double seconds_ = 0.0;
  int notes_ = 0;
};

}  // namespace

double swing_ratio(double off_beat) { return off_beat / (1.0 - off_beat); }

std::vector<Manner> first_manners(std::span<const TimedNote> notes, std::span<const BeatCell> cells) {
  const BeatHistogram histogram(notes, cells);
  if (histogram.is_empty()) return {Manner{}};
  constexpr double step = 0.03;
  constexpr std::array spreads = {0.012, 0.028};
  constexpr double surely = 25.0;  // a guess so much less likely, in natural logarithms, is not followed
  constexpr double unlike = 0.07;  // in beats: guesses nearer to each other lead to the same reading
  constexpr std::size_t most_guesses = 3;
  std::vector<std::pair<double, Manner>> all;
  for (const double spread : spreads) {
    const double in_beats = std::hypot(spread / histogram.beat_seconds(), 0.01);
    const BinDensities on_beat = histogram.on_beat(in_beats);
    for (double off_beat = 0.5; off_beat <= most_swung; off_beat += step)
      all.emplace_back(histogram.log_likelihood(off_beat, in_beats, on_beat), Manner{off_beat, spread, 0.0});
  }
  std::ranges::stable_sort(all, std::greater{}, [](const auto& guess) { return guess.first; });
  std::vector<Manner> guesses;
  for (const auto& guess : all) {
    const Manner& manner = guess.second;
    const auto alike = [&](const Manner& other) { return std::abs(other.off_beat - manner.off_beat) < unlike; };
    if (guess.first < all.front().first - surely) break;
    if (guesses.size() < most_guesses && std::ranges::none_of(guesses, alike)) guesses.push_back(manner);
  }
  return guesses;
}

Manner heard_manner(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                    std::span<const Subdivision> figures, std::span<const Placed> placed, const Manner& before) {
  double off_beats = 0.0;
  int off_beat_count = 0;
  double late = 0.0;
  double square = 0.0;
  int count = 0;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    if (placed[i].grace) continue;
    const BeatCell& cell = cells[placed[i].cell];
    const Subdivision& figure = figures[placed[i].subdivision];
    const double into = notes[i].onset_seconds - cell.onset_seconds;
    if (is_off_beat(figure, placed[i])) {
      off_beats += (into - before.late_seconds) / cell.length_seconds;
      ++off_beat_count;
    }
    const double error = into - cell.length_seconds * position_in_beat(figure, placed[i].part, before.off_beat);
    if (placed[i].part == 0) late += error;
    if (placed[i].part == 0) ++count;
    square += (error - before.late_seconds) * (error - before.late_seconds);
  }
  // Few notes say little: each figure is drawn towards what was believed before.
  constexpr double believed_off_beats = 2.0;
  constexpr double believed_beats = 8.0;
  constexpr double believed_notes = 6.0;
  Manner heard;
  heard.off_beat =
      std::clamp((off_beats + believed_off_beats * before.off_beat) / (off_beat_count + believed_off_beats),
                 straightest, most_swung);
  heard.late_seconds = late / (count + believed_beats);
  const double variance = (square + believed_notes * before.spread_seconds * before.spread_seconds) /
                          (static_cast<double>(notes.size()) + believed_notes);
  heard.spread_seconds = std::clamp(std::sqrt(variance), evenest_seconds, loosest_seconds);
  return heard;
}

std::vector<Manner> manners_by_phrase(std::span<const TimedNote> notes, std::span<const BeatCell> cells,
                                      std::span<const Subdivision> figures, std::span<const Placed> placed,
                                      const Manner& whole) {
  constexpr double weight_of_whole = 6.0;
  constexpr double audible = 0.02;  // in beats: phrases that differ by less from the whole are played alike
  bool differs = false;
  std::vector<Manner> manners(notes.size(), whole);
  std::size_t begin = 0;
  double sum = 0.0;
  int count = 0;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    const BeatCell& cell = cells[placed[i].cell];
    if (is_off_beat(figures[placed[i].subdivision], placed[i])) {
      sum += (notes[i].onset_seconds - whole.late_seconds - cell.onset_seconds) / cell.length_seconds;
      ++count;
    }
    const bool last = i + 1 == notes.size();
    if (!last && notes[i + 1].onset_seconds - notes[i].end_seconds < cell.length_seconds) continue;
    const double off_beat = (sum + weight_of_whole * whole.off_beat) / (count + weight_of_whole);
    for (std::size_t k = begin; k <= i; ++k) manners[k].off_beat = std::clamp(off_beat, straightest, most_swung);
    differs = differs || std::abs(off_beat - whole.off_beat) > audible;
    begin = i + 1;
    sum = 0.0;
    count = 0;
  }
  if (!differs) return {whole};
  return manners;
}

}  // namespace insideline::io
