// What a practice sheet costs, from the changes to the text of its score, told in readings of the same changes file:
// the exact search over the whole form, for 64 bars and for ten times as many; and all twelve keys of 64 bars. The heap
// is kept, as the program keeps it; given back after each sheet, most of the time of a long one went into touching its
// pages anew. What we aim for on a machine that is idle: a sheet of 64 bars under 5 ms, all twelve keys under 40 ms.
#include <benchmark/benchmark.h>
#include <malloc.h>

#include <array>
#include <cstdio>
#include <map>
#include <string>
#include <utility>

#include "analyzer/drills/drill.hpp"
#include "analyzer/drills/drill_in_keys.hpp"
#include "io/changes/changes_file.hpp"
#include "io/musicxml/score_writer.hpp"

namespace {

constexpr int short_form_bars = 64;
constexpr int long_form_bars = 640;
constexpr double nanoseconds_per_millisecond = 1e6;

/// Two-five-ones through the keys, a chord or two a bar.
const std::string& chart_of(const benchmark::State& state) {
  static std::map<int, std::string> charts;
  std::string& chart = charts[static_cast<int>(state.range(0))];
  if (!chart.empty()) return chart;
  constexpr std::array lines = {"| Dm7 | G7 | Cmaj7 | Am7 D7 ", "| Gm7 | C7(b9) | Fmaj7 | Em7b5 A7 ",
                                "| Bbm7 | Eb7 | Abmaj7 | Fm7 Bb7 ", "| Ebmaj7 Edim7 | Fm7 Bb7 | Gm7 C7 | Fm7 G7alt "};
  for (int bar = 0; bar < state.range(0); bar += 4) chart += lines.at(static_cast<std::size_t>(bar / 4) % lines.size());
  return chart += "|\n";
}

void read_chart(benchmark::State& state) {
  const std::string& chart = chart_of(state);
  for ([[maybe_unused]] auto _ : state) benchmark::DoNotOptimize(insideline::io::parse_changes(chart, "form.changes"));
}

void make_sheet(benchmark::State& state, const insideline::DrillSettings& settings) {
  const insideline::Changes changes = insideline::io::parse_changes(chart_of(state), "form.changes");
  for ([[maybe_unused]] auto _ : state) {
    const auto drill = insideline::drill_over(changes, settings);
    if (!drill) return state.SkipWithError(drill.error().c_str());
    benchmark::DoNotOptimize(insideline::io::write_musicxml(drill->solo, drill->harmony));
  }
}

/// Search, lines in all keys and the text of the score.
void make_sheet_in_all_keys(benchmark::State& state, const insideline::DrillSettings& settings) {
  insideline::Changes changes = insideline::io::parse_changes(chart_of(state), "form.changes");
  changes.key = insideline::Key{};
  for ([[maybe_unused]] auto _ : state) {
    const auto sheet = insideline::drill_in_keys(changes, settings, insideline::KeyOrder::fourths);
    if (!sheet) return state.SkipWithError(sheet.error().c_str());
    benchmark::DoNotOptimize(insideline::io::write_musicxml(sheet->drill.solo, sheet->drill.harmony));
  }
}

insideline::DrillSettings settings_for(insideline::DrillKind kind) {
  insideline::DrillSettings settings;
  settings.kind = kind;
  settings.way = insideline::Way::down;
  if (kind == insideline::DrillKind::cells) {
    insideline::DrillCell cell;
    for (const int number : {5, 7, 1}) cell.tones.push_back({.asked = {number, 0}});
    settings.cells = {cell};
  }
  return settings;
}

void nearest_tones(benchmark::State& state) { make_sheet(state, settings_for(insideline::DrillKind::nearest_tones)); }
void arpeggios(benchmark::State& state) { make_sheet(state, settings_for(insideline::DrillKind::arpeggios)); }
void cells(benchmark::State& state) { make_sheet(state, settings_for(insideline::DrillKind::cells)); }

void guide_tones(benchmark::State& state) { make_sheet(state, settings_for(insideline::DrillKind::guide_tones)); }
void enclosures(benchmark::State& state) { make_sheet(state, settings_for(insideline::DrillKind::enclosures)); }
void descents(benchmark::State& state) { make_sheet(state, settings_for(insideline::DrillKind::descents)); }
void all_keys(benchmark::State& state) {
  make_sheet_in_all_keys(state, settings_for(insideline::DrillKind::nearest_tones));
}
void all_keys_arpeggios(benchmark::State& state) {
  make_sheet_in_all_keys(state, settings_for(insideline::DrillKind::arpeggios));
}

class RatioReporter : public benchmark::ConsoleReporter {
 public:
  void ReportRuns(const std::vector<Run>& runs) override {
    ConsoleReporter::ReportRuns(runs);
    for (const Run& run : runs)
      if (run.aggregate_name == "median") medians_[run.run_name.str()] = run.GetAdjustedCPUTime();
  }
  void Finalize() override {
    std::printf("\nin readings of the changes file    %d bars    %d bars    growth\n", short_form_bars, long_form_bars);
    for (const char* kind : {"nearest_tones", "arpeggios", "cells", "guide_tones", "enclosures", "descents"})
      std::printf("  %-30s %9.1f %11.1f %9.1f\n", kind, loads(kind, short_form_bars), loads(kind, long_form_bars),
                  at(kind, long_form_bars) / at(kind, short_form_bars));
    std::printf("\nmilliseconds for %d bars\n", short_form_bars);
    for (const char* kind : {"nearest_tones", "arpeggios", "cells", "all_keys", "all_keys_arpeggios"})
      std::printf("  %-30s %9.2f\n", kind, at(kind, short_form_bars) / nanoseconds_per_millisecond);
  }

 private:
  [[nodiscard]] double at(const std::string& name, int bars) const {
    const auto found = medians_.find(name + "/" + std::to_string(bars));
    return found == medians_.end() ? 0.0 : found->second;
  }
  [[nodiscard]] double loads(const std::string& name, int bars) const {
    return at(name, bars) / at("read_chart", bars);
  }

  std::map<std::string, double> medians_;
};

}  // namespace

BENCHMARK(read_chart)->Arg(short_form_bars)->Arg(long_form_bars);
BENCHMARK(nearest_tones)->Arg(short_form_bars)->Arg(long_form_bars);
BENCHMARK(arpeggios)->Arg(short_form_bars)->Arg(long_form_bars);
BENCHMARK(cells)->Arg(short_form_bars)->Arg(long_form_bars);
BENCHMARK(guide_tones)->Arg(short_form_bars)->Arg(long_form_bars);
BENCHMARK(enclosures)->Arg(short_form_bars)->Arg(long_form_bars);
BENCHMARK(descents)->Arg(short_form_bars)->Arg(long_form_bars);
BENCHMARK(all_keys)->Arg(short_form_bars);
BENCHMARK(all_keys_arpeggios)->Arg(short_form_bars);

int main(int count, char** arguments) {
  constexpr int mebibyte = 1 << 20;
  mallopt(M_TRIM_THRESHOLD, 64 * mebibyte);
  mallopt(M_MMAP_THRESHOLD, 32 * mebibyte);
  benchmark::Initialize(&count, arguments);
  RatioReporter reporter;
  benchmark::RunSpecifiedBenchmarks(&reporter);
}
