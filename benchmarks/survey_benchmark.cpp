// survey_benchmark PROGRAM FOLDER COUNT [COUNT...]: what a survey costs. For each COUNT it writes that many different
// solos of 64 bars below FOLDER, runs `PROGRAM survey` over them twice, and prints solos a second, the peak of memory,
// how much faster the second run is, and what it costs to put four parts together. Before all it tells, in this process
// and on one core, how the work divides.
#include "analyzer/alignment.hpp"
#include "analyzer/collection/solo_rows.hpp"
#include "analyzer/spelling.hpp"
#include "benchmarks/generated_score.hpp"
#include "io/database/collection.hpp"
#include "io/read_solo.hpp"
#include "io/solo_hash.hpp"

#include <fcntl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

namespace {

namespace fs = std::filesystem;
using Clock = std::chrono::steady_clock;

double seconds_since(Clock::time_point from) { return std::chrono::duration<double>(Clock::now() - from).count(); }

/// The same music under another title, so that no two solos are the same.
std::string score_number(const std::string& score, int number) {
  const std::string mark = "<part-list>";
  std::string titled = score;
  return titled.insert(titled.find(mark), "<movement-title>Solo " + std::to_string(number) + "</movement-title>");
}

void write_solos(const fs::path& folder, const std::string& score, int count) {
  constexpr int in_one_folder = 1000;
  for (int number = 0; number < count; ++number) {
    const fs::path player = folder / ("player " + std::to_string(number / in_one_folder));
    fs::create_directories(player);
    std::ofstream(player / (std::to_string(number) + ".musicxml")) << score_number(score, number);
  }
}

struct Run {
  double seconds = 0.0;
  double processor_seconds = 0.0;  ///< over all cores, the kernel's share included
  long peak_kilobytes = 0;
};

/// `insideline` with these words; what it prints goes nowhere.
Run timed(std::vector<std::string> words) {
  std::vector<char*> arguments;
  for (std::string& word : words) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  const auto began = Clock::now();
  const pid_t child = ::fork();
  if (child < 0) throw std::runtime_error("no process can be started");
  if (child == 0) {
    const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
    ::dup2(nowhere, STDOUT_FILENO);
    ::execv(arguments.front(), arguments.data());
    ::_exit(127);
  }
  int status = 0;
  rusage used{};
  if (::wait4(child, &status, 0, &used) != child || status != 0) throw std::runtime_error(words.at(1) + " failed");
  constexpr double millionth = 1e-6;
  const auto seconds = [](const timeval& time) {
    return static_cast<double>(time.tv_sec) + millionth * static_cast<double>(time.tv_usec);
  };
  return {.seconds = seconds_since(began),
          .processor_seconds = seconds(used.ru_utime) + seconds(used.ru_stime),
          .peak_kilobytes = used.ru_maxrss};
}

/// Four parts one after the other, and what it costs to put them together.
void in_parts(const std::string& program, const fs::path& folder, const fs::path& solos) {
  double survey_seconds = 0.0;
  std::vector<std::string> merge{program, "merge"};
  for (const std::string number : {"1", "2", "3", "4"}) {
    const std::string part = (folder / ("part-" + number + ".db")).string();
    fs::remove(part);
    survey_seconds +=
        timed({program, "survey", solos.string(), "--db", part, "--shard", number + "/4"}).processor_seconds;
    merge.push_back(part);
  }
  const std::string merged = (folder / "merged.db").string();
  fs::remove(merged);
  std::vector<std::string> with_output = merge;
  with_output.insert(with_output.end(), {"-o", merged});
  const Run merging = timed(with_output);
  std::printf("        four parts put together: %.3f of the time of a core that surveying them took; aim 0.1\n",
              merging.processor_seconds / survey_seconds);
  fs::remove(merged);
  for (std::size_t part = 2; part < merge.size(); ++part) fs::remove(merge[part]);
}

void whole_program(const std::string& program, const fs::path& folder, const std::string& score, int count) {
  const fs::path solos = folder / ("solos-" + std::to_string(count));
  const fs::path database = folder / ("solos-" + std::to_string(count) + ".db");
  fs::remove_all(solos);
  fs::remove(database);
  write_solos(solos, score, count);
  const std::vector<std::string> survey{program, "survey", solos.string(), "--db", database.string()};
  const Run first = timed(survey);
  const Run second = timed(survey);
  constexpr double milliseconds = 1000.0;
  constexpr double megabyte = 1e6;
  std::printf("%6d solos: %7.1f s, %6.0f a second, %.2f ms of a core each, peak %ld KB; ", count, first.seconds,
              count / first.seconds, milliseconds * first.processor_seconds / count, first.peak_kilobytes);
  std::printf("second run %.2f s, %.0f times faster; database %.0f MB\n", second.seconds,
              first.seconds / second.seconds, static_cast<double>(fs::file_size(database)) / megabyte);
  in_parts(program, folder, solos);
  fs::remove_all(solos);
  fs::remove(database);
}

void stages(const fs::path& folder, const std::string& score) {
  constexpr int count = 300;
  const fs::path file = folder / "stages.db";
  fs::remove(file);
  insideline::io::Collection collection(file.string());
  std::array<double, 4> spent{};  // fingerprint, reading, analysis, database
  for (int number = 0; number < count; ++number) {
    const std::string bytes = score_number(score, number);
    auto began = Clock::now();
    const auto lap = [&](std::size_t stage) {
      spent.at(stage) += seconds_since(began);
      began = Clock::now();
    };
    const auto hash = insideline::io::solo_hash(bytes);
    lap(0);
    insideline::io::ReadResult read = insideline::io::parse_solo(bytes, "generated.musicxml");
    lap(1);
    const insideline::Harmony harmony = insideline::lay_out(read.changes.value(), read.solo);
    const insideline::Solo solo = insideline::spelled_by_harmony(std::move(read.solo), harmony);
    const insideline::SoloRows rows =
        insideline::solo_rows(solo, insideline::analyze(solo, harmony, {.detail = insideline::Detail::figures}));
    lap(2);
    const std::string path = std::to_string(number);
    const insideline::io::SoloTexts texts = insideline::io::solo_texts(rows, path);
    collection.store({.hash = hash, .place = {path, "", ""}, .made_with = "benchmark"}, texts, "");
    lap(3);
  }
  constexpr double milliseconds = 1000.0;
  std::printf(
      "one solo on one core: fingerprint %.2f ms, reading %.2f ms, analysis and figures %.2f ms, database %.2f ms\n",
      milliseconds * spent[0] / count, milliseconds * spent[1] / count, milliseconds * spent[2] / count,
      milliseconds * spent[3] / count);
  collection.finish();
  fs::remove(file);
}

}  // namespace

int main(int count, char** arguments) {
  try {
    if (count < 4) throw std::invalid_argument("usage: survey_benchmark PROGRAM FOLDER COUNT [COUNT...]");
    const std::vector<std::string> given(arguments + 1, arguments + count);
    const std::string score = insideline::benchmarks::generated_score({});
    stages(given[1], score);
    for (std::size_t i = 2; i < given.size(); ++i) whole_program(given[0], given[1], score, std::stoi(given[i]));
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "survey_benchmark: %s\n", error.what());
    return 1;
  }
}
