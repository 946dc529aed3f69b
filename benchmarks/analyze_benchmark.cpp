// What the work costs, told in bare loads of the same bytes: a ratio means the same on any machine, a time does not.
// The clock counts processor time, which other programs disturb least. The heap is kept warm, because a page touched
// for the first time costs more than parsing what is on it, and that cost would fall on whoever allocates first.
// Prints the usual table, then the ratios of the medians.
#include <benchmark/benchmark.h>
#include <malloc.h>

#include <cstdio>
#include <cstdlib>
#include <map>
#include <pugixml.hpp>
#include <stdexcept>
#include <string>
#include <tuple>
#include <utility>
#include <vector>

#include "analyzer/alignment.hpp"
#include "analyzer/analysis.hpp"
#include "analyzer/arpeggios.hpp"
#include "analyzer/labels/label_notes.hpp"
#include "analyzer/patterns/patterns.hpp"
#include "analyzer/phrases.hpp"
#include "analyzer/scales_in_thirds.hpp"
#include "benchmarks/generated_score.hpp"
#include "io/musicxml/musicxml.hpp"
#include "reports/csv_report.hpp"
#include "reports/html/html_report.hpp"
#include "reports/json_report.hpp"
#include "reports/text_report.hpp"

namespace {

using namespace std::string_literals;
using insideline::benchmarks::generated_score;

/// Every stage starts from what the stage before it left, made once and outside the clock.
struct Material {
  std::string bytes;
  insideline::io::ReadResult read;
  insideline::Harmony harmony;
};

Material material(int bars) {
  Material made;
  made.bytes = generated_score({bars, bars * 500 / 64});
  made.read = insideline::io::parse_musicxml(made.bytes, "generated.musicxml");
  if (!made.read.changes) throw std::runtime_error("the generated score has no chords");
  made.harmony = insideline::lay_out(*made.read.changes, made.read.solo);
  return made;
}

const Material& material_of(const benchmark::State& state) {
  static std::map<int, Material> kept;
  const int bars = static_cast<int>(state.range(0));
  const auto found = kept.find(bars);
  return found != kept.end() ? found->second : kept.emplace(bars, material(bars)).first->second;
}

void load_only(benchmark::State& state) {
  const Material& score = material_of(state);
  for ([[maybe_unused]] auto _ : state) {
    pugi::xml_document document;
    benchmark::DoNotOptimize(document.load_buffer(score.bytes.data(), score.bytes.size()));
  }
}

void import_score(benchmark::State& state) {
  const Material& score = material_of(state);
  for ([[maybe_unused]] auto _ : state)
    benchmark::DoNotOptimize(insideline::io::parse_musicxml(score.bytes, "generated.musicxml"));
}

/// What a summary asks for: without sentences, other readings and the figures of later pages.
constexpr auto first_page = insideline::Detail::first_page;

void label_line(benchmark::State& state) {
  const Material& score = material_of(state);
  for ([[maybe_unused]] auto _ : state) {
    const std::vector<insideline::Phrase> phrases = insideline::find_phrases(score.read.solo, score.harmony);
    benchmark::DoNotOptimize(insideline::label_notes(score.read.solo, score.harmony, phrases, {.detail = first_page}));
  }
}

/// What stands before the search for figures: the labels, and the line as all measures hear it.
struct HeardMaterial {
  explicit HeardMaterial(const Material& score)
      : phrases(insideline::find_phrases(score.read.solo, score.harmony)),
        labels(insideline::label_notes(score.read.solo, score.harmony, phrases)),
        line(insideline::hear(score.read.solo, score.harmony, labels, phrases)),
        scales(insideline::find_scales_in_thirds(line)) {}

  std::vector<insideline::Phrase> phrases;
  std::vector<insideline::NoteLabel> labels;
  insideline::HeardLine line;
  std::vector<insideline::ScaleInThirds> scales;
};

void find_arpeggios(benchmark::State& state) {
  const Material& score = material_of(state);
  const HeardMaterial heard(score);
  for ([[maybe_unused]] auto _ : state)
    benchmark::DoNotOptimize(insideline::find_arpeggios(heard.line, heard.scales, score.harmony, heard.labels));
}

void find_patterns(benchmark::State& state) {
  const Material& score = material_of(state);
  const HeardMaterial heard(score);
  for ([[maybe_unused]] auto _ : state)
    benchmark::DoNotOptimize(insideline::find_patterns(heard.line, heard.scales, score.read.solo, score.harmony));
}

void analyze_line(benchmark::State& state) {
  const Material& score = material_of(state);
  for ([[maybe_unused]] auto _ : state)
    benchmark::DoNotOptimize(insideline::analyze(score.read.solo, score.harmony, {.detail = first_page}));
}

void explain_line(benchmark::State& state) {
  const Material& score = material_of(state);
  for ([[maybe_unused]] auto _ : state) benchmark::DoNotOptimize(insideline::analyze(score.read.solo, score.harmony));
}

insideline::reports::Report report_on(const Material& score) {
  insideline::reports::Report report;
  report.source.solo_file = "generated.musicxml";
  report.source.changes_file = "in score";
  report.solo = score.read.solo;
  report.analysis = insideline::analyze(score.read.solo, score.harmony);
  return report;
}

void write_summary(benchmark::State& state) {
  const insideline::reports::Report report = report_on(material_of(state));
  for ([[maybe_unused]] auto _ : state) benchmark::DoNotOptimize(insideline::reports::text_report(report));
}

void write_json(benchmark::State& state) {
  const insideline::reports::Report report = report_on(material_of(state));
  for ([[maybe_unused]] auto _ : state) benchmark::DoNotOptimize(insideline::reports::json_report(report));
}

void write_csv(benchmark::State& state) {
  const insideline::reports::Report report = report_on(material_of(state));
  for ([[maybe_unused]] auto _ : state) benchmark::DoNotOptimize(insideline::reports::csv_report(report));
}

void write_page(benchmark::State& state) {
  const insideline::reports::Report report = report_on(material_of(state));
  std::size_t bytes = 0;
  for ([[maybe_unused]] auto _ : state) bytes = insideline::reports::html_report(report).size();
  state.counters["bytes"] = static_cast<double>(bytes);
}

/// What the command does, from the bytes of the score to the text of the summary.
void whole(benchmark::State& state) {
  const Material& score = material_of(state);
  for ([[maybe_unused]] auto _ : state) {
    insideline::io::ReadResult read = insideline::io::parse_musicxml(score.bytes, "generated.musicxml");
    insideline::reports::Report report;
    report.source.solo_file = "generated.musicxml";
    report.source.changes_file = "in score";
    report.analysis =
        insideline::analyze(read.solo, insideline::lay_out(read.changes.value(), read.solo), {.detail = first_page});
    report.solo = std::move(read.solo);
    benchmark::DoNotOptimize(insideline::reports::text_report(report));
  }
}

constexpr int short_solo_bars = 64;
constexpr int long_solo_bars = 2000;
constexpr int longest_solo_bars = 6400;  // 50,000 notes: a hundred times the short one

/// Keeps the medians beside the usual table.
class MedianReporter : public benchmark::ConsoleReporter {
 public:
  void ReportRuns(const std::vector<Run>& runs) override {
    for (const Run& run : runs)
      if (run.aggregate_name == "median")
        medians_[run.run_name.function_name + "/" + run.run_name.args] = run.GetAdjustedCPUTime();
    ConsoleReporter::ReportRuns(runs);
  }
  [[nodiscard]] double median(const std::string& stage, int bars) const {
    return medians_.at(stage + "/" + std::to_string(bars));
  }

 private:
  std::map<std::string, double> medians_;
};

void print_ratios(const MedianReporter& reporter) {
  const auto loads = [&](const std::string& stage, int bars) {
    return reporter.median(stage, bars) / reporter.median("load_only", bars);
  };
  std::printf("\nin one process, heap kept warm, in bare loads of the same bytes   %d bars   %d bars   aim\n",
              short_solo_bars, long_solo_bars);
  for (const auto& [stage, words, aim] : {std::tuple{"whole"s, "insideline analyze, bytes to summary"s, "5"s},
                                          {"import_score"s, "  reading the score"s, "1.8"s},
                                          {"analyze_line"s, "  all of the analysis"s, ""s},
                                          {"label_line"s, "    of it phrases and labels"s, ""s},
                                          {"find_arpeggios"s, "    of it arpeggios"s, ""s},
                                          {"find_patterns"s, "    of it patterns"s, ""s},
                                          {"write_summary"s, "  writing the summary"s, ""s},
                                          {"explain_line"s, "the analysis with reasons and other readings"s, ""s},
                                          {"write_json"s, "writing --json"s, "12"s},
                                          {"write_csv"s, "writing --csv"s, "3"s},
                                          {"write_page"s, "writing the page of --html"s, ""s}}) {
    std::printf("  %-62s %7.2f %11.2f   %s\n", words.c_str(), loads(stage, short_solo_bars),
                loads(stage, long_solo_bars), aim.c_str());
  }
  const auto part_of_labels = [&](const std::string& stage, int bars) {
    return reporter.median(stage, bars) / reporter.median("label_line", bars);
  };
  std::printf("  arpeggios take %.2f of the time of the labels, patterns %.2f (aim a third each)\n",
              part_of_labels("find_arpeggios", short_solo_bars), part_of_labels("find_patterns", short_solo_bars));
  const auto growth = [&](const std::string& stage) {
    return reporter.median(stage, long_solo_bars) / reporter.median(stage, short_solo_bars);
  };
  std::printf("  %.2f times the bars take %.2f times as long, %.2f times to read\n",
              double{long_solo_bars} / short_solo_bars, growth("whole"), growth("import_score"));
  for (const auto& [stage, words] : {std::pair{"label_line"s, "label"s}, {"analyze_line"s, "analyse"s}}) {
    const double a_note = reporter.median(stage, longest_solo_bars) / longest_solo_bars /
                          (reporter.median(stage, short_solo_bars) / short_solo_bars);
    std::printf("  to %s one of 50,000 notes takes %.2f times as long as to %s one of 500\n", words.c_str(), a_note,
                words.c_str());
  }
}

BENCHMARK(load_only)->Arg(short_solo_bars)->Arg(long_solo_bars);
BENCHMARK(import_score)->Arg(short_solo_bars)->Arg(long_solo_bars);
BENCHMARK(label_line)->Arg(short_solo_bars)->Arg(long_solo_bars)->Arg(longest_solo_bars);
BENCHMARK(find_arpeggios)->Arg(short_solo_bars)->Arg(long_solo_bars);
BENCHMARK(find_patterns)->Arg(short_solo_bars)->Arg(long_solo_bars);
BENCHMARK(analyze_line)->Arg(short_solo_bars)->Arg(long_solo_bars)->Arg(longest_solo_bars);
BENCHMARK(explain_line)->Arg(short_solo_bars)->Arg(long_solo_bars);
BENCHMARK(write_summary)->Arg(short_solo_bars)->Arg(long_solo_bars);
BENCHMARK(write_json)->Arg(short_solo_bars)->Arg(long_solo_bars);
BENCHMARK(write_csv)->Arg(short_solo_bars)->Arg(long_solo_bars);
BENCHMARK(write_page)->Arg(short_solo_bars)->Arg(long_solo_bars);
BENCHMARK(whole)->Arg(short_solo_bars)->Arg(long_solo_bars);

/// Memory stays with the program: no trimming, and no mapping of its own for a large block.
void keep_heap() {
  if (mallopt(M_TRIM_THRESHOLD, 1 << 30) != 1 || mallopt(M_MMAP_MAX, 0) != 1) {
    throw std::runtime_error("the heap cannot be kept");
  }
}

}  // namespace

int main(int count, char** arguments) {
  try {
    keep_heap();
    benchmark::Initialize(&count, arguments);
    MedianReporter reporter;
    benchmark::RunSpecifiedBenchmarks(&reporter);
    print_ratios(reporter);
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "analyze_benchmark: %s\n", error.what());
    return 1;
  }
}
