// What it costs to lay a take against its sheet, told in labellings of the same sheet: 500 notes and 1,000, a wrong
// note in ten and a passage begun again. What is looked at grows with the notes and with the mistakes in them.
#include <benchmark/benchmark.h>

#include <map>
#include <string>

#include "analyzer/alignment.hpp"
#include "analyzer/analysis.hpp"
#include "analyzer/takes/assessment.hpp"
#include "benchmarks/generated_score.hpp"
#include "io/musicxml/musicxml.hpp"

namespace {

constexpr int notes_a_bar = 7;

struct Material {
  insideline::Solo sheet;
  insideline::Harmony harmony;
  insideline::Analysis analysis;
  insideline::Solo take;
};

const Material& material_of(const benchmark::State& state) {
  static std::map<int, Material> kept;
  const int notes = static_cast<int>(state.range(0));
  Material& made = kept[notes];
  if (!made.sheet.notes.empty()) return made;
  const std::string bytes = insideline::benchmarks::generated_score({notes / notes_a_bar, notes});
  insideline::io::ReadResult read = insideline::io::parse_musicxml(bytes, "sheet.musicxml");
  made.harmony = insideline::lay_out(read.changes.value(), read.solo);
  made.sheet = read.solo;
  made.analysis = insideline::analyze(made.sheet, made.harmony);
  made.take = made.sheet;
  for (std::size_t i = 0; i < made.take.notes.size(); i += 10) made.take.notes[i].pitch.octave += i % 20 == 0 ? 1 : 0;
  const auto middle = made.take.notes.begin() + static_cast<std::ptrdiff_t>(made.take.notes.size() / 2);
  const std::vector<insideline::Note> again(middle - 16, middle);
  made.take.notes.insert(middle, again.begin(), again.end());
  return made;
}

void label_sheet(benchmark::State& state) {
  const Material& made = material_of(state);
  for ([[maybe_unused]] auto _ : state) benchmark::DoNotOptimize(insideline::analyze(made.sheet, made.harmony));
}

void assess(benchmark::State& state) {
  const Material& made = material_of(state);
  for ([[maybe_unused]] auto _ : state)
    benchmark::DoNotOptimize(insideline::assess_take(made.sheet, made.analysis, made.take));
}

}  // namespace

BENCHMARK(label_sheet)->Arg(500)->Arg(1000)->Unit(benchmark::kMillisecond);
BENCHMARK(assess)->Arg(500)->Arg(1000)->Unit(benchmark::kMillisecond);
BENCHMARK_MAIN();
