// How many notes of a played line return to their written place, against how unevenly it is played: every piece of a
// folder, at random tempos (60 to 280) and swings (1.0 to 3.0), seeded. Prints one table for the jitter and one each
// for tempo and swing at 20 ms.
//
//   quantize_curve corpus-demo [TAKES]
#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <exception>
#include <filesystem>
#include <map>
#include <random>
#include <string>
#include <vector>

#include "analyzer/metre.hpp"
#include "io/midi/quantize.hpp"
#include "io/read_solo.hpp"
#include "tests/support/human_timing.hpp"

namespace {

using insideline::Solo;
using insideline::tests::Take;

constexpr std::size_t default_takes = 40;

struct Tally {
  int right = 0;
  int lengths = 0;
  int of = 0;
  void operator+=(const Tally& other) {
    right += other.right;
    lengths += other.lengths;
    of += other.of;
  }
};

std::vector<insideline::io::BeatCell> cells_under(const Solo& solo, double tempo_bpm) {
  using insideline::io::units_per_quarter;
  std::vector<insideline::io::BeatCell> cells;
  const double quarter = 60.0 / tempo_bpm;
  const auto units = [](const insideline::Beats& time) {
    const insideline::Beats all = time * insideline::Beats(units_per_quarter);
    return all.numerator() / all.denominator();
  };
  const std::int64_t begin = units(solo.bars.front().onset);
  const std::int64_t lead = 8 * units_per_quarter;
  const std::int64_t whole_beat = insideline::whole_units(solo.bars.front().onset, 1) * units_per_quarter;
  for (std::int64_t at = whole_beat - lead; at < units(end_of(solo)) + lead; at += units_per_quarter)
    cells.push_back({at, units_per_quarter,
                     insideline::tests::lead_seconds + static_cast<double>(at - begin) / units_per_quarter * quarter,
                     quarter, insideline::io::BeatKind::simple});
  return cells;
}

Tally returned(const Solo& solo, const Take& take) {
  std::vector<insideline::io::TimedNote> notes;
  for (const auto& note : insideline::tests::played(solo, take))
    notes.push_back({note.onset_seconds, note.end_seconds});
  const auto read = insideline::io::quantized(notes, cells_under(solo, take.tempo_bpm));
  Tally tally;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    const auto& written = solo.notes[i];
    const bool same =
        insideline::io::beats_of(read.notes[i].onset) == written.onset && read.notes[i].grace == written.grace;
    ++tally.of;
    tally.right += same ? 1 : 0;
    tally.lengths += same && insideline::io::beats_of(read.notes[i].duration) == written.duration ? 1 : 0;
  }
  return tally;
}

std::string percent(int part, int whole) { return fmt::format("{:5.1f} %", 100.0 * part / std::max(whole, 1)); }

void print(const std::string& name, const std::map<std::string, Tally>& rows) {
  fmt::print("\n{:<16}{:>10}{:>14}{:>16}\n", name, "notes", "right place", "and length");
  for (const auto& [row, tally] : rows)
    fmt::print("{:<16}{:>10}{:>14}{:>16}\n", row, tally.of, percent(tally.right, tally.of),
               percent(tally.lengths, tally.of));
}

int run(const std::string& folder, std::size_t takes) {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder))
    if (entry.path().extension() == ".musicxml") files.push_back(entry.path());
  std::ranges::sort(files);
  std::map<std::string, Tally> by_jitter;
  std::map<std::string, Tally> by_tempo;
  std::map<std::string, Tally> by_swing;
  std::map<std::string, Tally> by_piece;
  for (const auto& file : files) {
    const Solo solo = insideline::io::read_solo(file).solo;
    for (const int jitter_ms : {0, 5, 10, 15, 20, 25, 30, 40}) {
      std::mt19937 engine(7);
      std::uniform_real_distribution<double> tempo(60.0, 280.0);
      std::uniform_real_distribution<double> swing(1.0, 3.0);
      for (std::size_t i = 0; i < takes; ++i) {
        const Take take{tempo(engine), swing(engine), jitter_ms / 1000.0, 0.0, static_cast<unsigned>(i) + 1};
        const Tally tally = returned(solo, take);
        by_jitter[fmt::format("{:2} ms", jitter_ms)] += tally;
        if (jitter_ms != 20) continue;
        by_tempo[fmt::format("{:3.0f} bpm", std::floor(take.tempo_bpm / 40.0) * 40.0)] += tally;
        by_swing[fmt::format("{:3.1f}", std::floor(take.swing_ratio * 2.0) / 2.0)] += tally;
        by_piece[file.stem().string()] += tally;
      }
    }
  }
  print("jitter", by_jitter);
  print("tempo, 20 ms", by_tempo);
  print("swing, 20 ms", by_swing);
  print("piece, 20 ms", by_piece);
  return EXIT_SUCCESS;
}

}  // namespace

int main(int count, char** arguments) {
  try {
    if (count < 2) {
      fmt::print(stderr, "usage: quantize_curve FOLDER [TAKES]\n");
      return EXIT_FAILURE;
    }
    return run(arguments[1], count > 2 ? static_cast<std::size_t>(std::atoi(arguments[2])) : default_takes);
  } catch (const std::exception& error) {
    fmt::print(stderr, "quantize_curve: {}\n", error.what());
    return EXIT_FAILURE;
  }
}
