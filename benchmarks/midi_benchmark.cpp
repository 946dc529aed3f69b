// What reading a MIDI file costs, told in bare libsmf loads of the same bytes, with the heap kept warm: a file on the
// grid, the same played by fingers, and a hundred thousand notes. Prints the usual table, then the ratios; we aim for
// 0.9 on the grid and 1.9 played.
// libsmf's own release of a file is quadratic; the bare load is let go of event by event, as the program does it.
#include <benchmark/benchmark.h>
// glib.h must come before smf.h, which includes it inside extern "C".
// clang-format off
#include <glib.h>
#include <smf.h>
// clang-format on
#include <malloc.h>

#include <cstdio>
#include <cstdlib>
#include <map>
#include <random>
#include <string>

#include "io/midi/midi.hpp"
#include "io/midi/smf_bytes.hpp"

namespace {

enum class Kind { on_grid, played };

constexpr int ticks_per_quarter = 480;

void append_event(std::string& events, std::uint32_t delta, unsigned status, unsigned midi, unsigned velocity) {
  insideline::io::append_vlq(events, delta);
  insideline::io::append_byte(events, status);
  insideline::io::append_byte(events, midi);
  insideline::io::append_byte(events, velocity);
}

/// Eighths up and down, straight or swung and jittered by 15 ms at 150 bpm.
std::string file_of(int notes, Kind kind) {
  constexpr double off_beat = 0.62;
  constexpr double jitter_ticks = 0.015 * 150.0 / 60.0 * ticks_per_quarter;
  std::mt19937 engine(5);
  std::normal_distribution<double> jitter(0.0, jitter_ticks);
  std::string events("\x00\xFF\x51\x03\x06\x1A\x80", 7);
  std::uint32_t last = 0;
  for (int i = 0; i < notes; ++i) {
    const double place = (i / 2 + 1) * ticks_per_quarter + (i % 2 == 0 ? 0.0 : off_beat * ticks_per_quarter);
    const int straight = ticks_per_quarter + i * ticks_per_quarter / 2;
    const double onset = kind == Kind::on_grid ? straight : std::max(place + jitter(engine), last + 10.0);
    const auto ticks = static_cast<std::uint32_t>(onset);
    const unsigned midi = 60U + static_cast<unsigned>((i % 14 < 7) ? i % 7 : 7 - i % 7) * 2U;
    const std::uint32_t length = kind == Kind::on_grid ? ticks_per_quarter / 2 : 120;
    append_event(events, ticks - last, 0x90, midi, 80);
    append_event(events, length, 0x80, midi, 0);
    last = ticks + length;
  }
  events += std::string("\x00\xFF\x2F\x00", 4);
  std::string file("MThd\x00\x00\x00\x06\x00\x00\x00\x01\x01\xE0MTrk", 18);
  insideline::io::append_u32(file, static_cast<std::uint32_t>(events.size()));
  return file + events;
}

const std::string& file(const benchmark::State& state) {
  static std::map<std::pair<int, int>, std::string> files;
  const std::pair key(static_cast<int>(state.range(0)), static_cast<int>(state.range(1)));
  std::string& bytes = files[key];
  if (bytes.empty()) bytes = file_of(key.first, static_cast<Kind>(key.second));
  return bytes;
}

void let_go(smf_t* smf) {
  for (guint i = 0; i < smf->tracks_array->len; ++i) {
    auto* track = static_cast<smf_track_t*>(g_ptr_array_index(smf->tracks_array, i));
    for (guint k = 0; k < track->events_array->len; ++k) {
      auto* event = static_cast<smf_event_t*>(g_ptr_array_index(track->events_array, k));
      std::free(event->midi_buffer);
      std::free(event);
    }
    g_ptr_array_set_size(track->events_array, 0);
    track->number_of_events = 0;
  }
  smf_delete(smf);
}

void bare_load(benchmark::State& state) {
  std::string bytes = file(state);
  for (auto _ : state) {
    smf_t* smf = smf_load_from_memory(bytes.data(), static_cast<int>(bytes.size()));
    benchmark::DoNotOptimize(smf);
    let_go(smf);
  }
}

void import_midi(benchmark::State& state) {
  const std::string& bytes = file(state);
  for (auto _ : state) {
    auto result = insideline::io::parse_midi(bytes, "benchmark.mid", {});
    benchmark::DoNotOptimize(result);
  }
}

class RatioReporter : public benchmark::ConsoleReporter {
 public:
  void ReportRuns(const std::vector<Run>& runs) override {
    ConsoleReporter::ReportRuns(runs);
    for (const Run& run : runs)
      if (run.aggregate_name == "median") medians_[run.run_name.str()] = run.GetAdjustedRealTime();
  }
  void Finalize() override {
    for (const auto& [name, time] : medians_) {
      const auto slash = name.find('/');
      if (!name.starts_with("import_midi")) continue;
      std::printf("import / bare load, %s: %.2f\n", name.substr(slash).c_str(),
                  time / medians_["bare_load" + name.substr(slash)]);
    }
  }

 private:
  std::map<std::string, double> medians_;
};

}  // namespace

BENCHMARK(bare_load)
    ->ArgsProduct({{1000, 10'000, 100'000}, {0, 1}})
    ->ArgNames({"notes", "played"})
    ->Unit(benchmark::kMillisecond);
BENCHMARK(import_midi)
    ->ArgsProduct({{1000, 10'000, 100'000}, {0, 1}})
    ->ArgNames({"notes", "played"})
    ->Unit(benchmark::kMillisecond);

int main(int count, char** arguments) {
  constexpr int keep = 1 << 30;
  mallopt(M_TRIM_THRESHOLD, keep);
  mallopt(M_MMAP_THRESHOLD, keep);
  benchmark::Initialize(&count, arguments);
  RatioReporter reporter;
  benchmark::RunSpecifiedBenchmarks(&reporter);
}
