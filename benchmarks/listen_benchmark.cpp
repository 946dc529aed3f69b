// listen_benchmark PIECE FONT [BARS]: how well and how fast a recording is heard. Every instrument of the table plays
// the piece by a sound font: clean, in a room, in noise, in other tunings and tempos; printed are recall and precision,
// how often notes heard with some certainty are right, the time against a floor of the same run, and the peak of memory
// for a short and a long recording. Every figure stands beside its aim.
#include "io/read_solo.hpp"
#include "tests/support/own_folder.hpp"
#include "tests/support/rendered_line.hpp"
#include "tests/support/tones.hpp"

#include <fmt/format.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>
#include <Eigen/Core>
#include <unsupported/Eigen/FFT>

#include <algorithm>
#include <array>
#include <complex>
#include <cstddef>
#include <cstdio>
#include <ctime>
#include <exception>
#include <filesystem>
#include <fstream>
#include <map>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace {

using insideline::tests::HeardScore;
using insideline::tests::Rendering;
using insideline::tests::Voice;

constexpr double aim_clean = 97.0;
constexpr double aim_in_a_room = 93.0;
constexpr double aim_times_real_time = 10.0;

struct Condition {
  std::string_view name;
  double tempo_bpm = 120.0;
  int cents = 0;
  std::string_view room = "0";
  double noise_db = 0.0;  ///< below the line; 0 for none
  double aim = aim_clean;
};
constexpr std::array conditions{
    Condition{.name = "clean"},
    Condition{.name = "room", .room = "1", .aim = aim_in_a_room},
    Condition{.name = "noise -30", .noise_db = 30.0, .aim = aim_in_a_room},
    Condition{.name = "noise -20", .noise_db = 20.0, .aim = aim_in_a_room},
    Condition{.name = "430 Hz", .cents = -40},
    Condition{.name = "450 Hz", .cents = 39},
    Condition{.name = "q = 60", .tempo_bpm = 60.0},
    Condition{.name = "q = 180", .tempo_bpm = 180.0},
    Condition{.name = "q = 240", .tempo_bpm = 240.0},
};

/// Of notes heard with a certainty in one tenth, how many are right.
struct Reliability {
  struct Tenth {
    std::size_t heard = 0;
    std::size_t right = 0;
  };
  std::array<Tenth, 10> tenths{};
  void add(float sure, bool is_right) {
    Tenth& tenth = tenths.at(std::min<std::size_t>(9, static_cast<std::size_t>(std::max(0.0F, sure) * 10.0F)));
    ++tenth.heard;
    tenth.right += is_right ? 1U : 0U;
  }
};

struct Totals {
  double sound_seconds = 0.0;
  double listening_seconds = 0.0;  ///< of a processor
  double floor_seconds = 0.0;
  std::map<std::string_view, Reliability> reliability;  ///< by condition
  std::vector<std::string> below_aim;
};

double processor_seconds() { return static_cast<double>(std::clock()) / CLOCKS_PER_SEC; }

/// What nobody who looks at pitches can do without: the file is read, and each moment transformed once.
void read_and_transform(const std::string& wav) {
  insideline::io::SoundFile file(wav, "line.wav");
  insideline::io::MonoSound mono(file);
  std::vector<float> sound;
  for (auto block = mono.next_block(); !block.empty(); block = mono.next_block())
    sound.insert(sound.end(), block.begin(), block.end());
  constexpr std::size_t window = 2'048;
  constexpr double apart_seconds = 0.0058;
  const auto apart = static_cast<std::size_t>(apart_seconds * mono.rate());
  Eigen::FFT<float> transform;
  transform.SetFlag(Eigen::FFT<float>::HalfSpectrum);
  std::vector<float> framed(window);
  std::vector<std::complex<float>> spectrum;
  float sum = 0.0F;
  for (std::size_t at = 0; at + window <= sound.size(); at += apart) {
    std::copy_n(sound.begin() + static_cast<std::ptrdiff_t>(at), window, framed.begin());
    transform.fwd(spectrum, framed);
    sum += std::norm(spectrum[1]);
  }
  if (!(sum >= 0.0F)) throw std::runtime_error("the sound has samples that are no numbers");
}

HeardScore measured(const Voice& voice, const insideline::Solo& solo, const Condition& condition, Rendering how,
                    Totals& totals) {
  how.tempo_bpm = condition.tempo_bpm;
  how.cents = condition.cents;
  how.room = condition.room;
  if (condition.noise_db > 0.0) how.noise_db = condition.noise_db;
  const auto range = range_of(voice);
  const auto notes = sounded_notes(solo, range, how);
  const std::string wav = rendered(notes, voice.program, how);
  const double before = processor_seconds();
  const auto line = insideline::tests::heard_in(wav, range);
  const double heard = processor_seconds();
  read_and_transform(wav);
  totals.listening_seconds += heard - before;
  totals.floor_seconds += processor_seconds() - heard;
  totals.sound_seconds += line.levels.seconds;
  HeardScore score = score_of(notes, line.notes);
  for (std::size_t i = 0; i < line.notes.size(); ++i)
    totals.reliability[condition.name].add(line.notes[i].sure, score.right[i]);
  if (score.recall() < condition.aim || score.precision() < condition.aim)
    totals.below_aim.push_back(fmt::format("{} ({})", voice.name, condition.name));
  return score;
}

void print_instruments(const insideline::Solo& solo, const Rendering& how, Totals& totals) {
  fmt::print("recall, precision (%)\n{:<14}", "");
  for (const Condition& condition : conditions) fmt::print(" {:>9}", condition.name);
  fmt::print("\n");
  std::array<std::size_t, conditions.size()> reached{};
  for (const Voice& voice : insideline::tests::voices()) {
    fmt::print("{:<14}", voice.name);
    for (std::size_t i = 0; i < conditions.size(); ++i) {
      const HeardScore score = measured(voice, solo, conditions.at(i), how, totals);
      reached.at(i) += score.recall() >= conditions.at(i).aim && score.precision() >= conditions.at(i).aim ? 1U : 0U;
      fmt::print(" {:>9}", fmt::format("{:.0f}, {:.0f}", score.recall(), score.precision()));
    }
    fmt::print("\n");
    std::fflush(stdout);
  }
  fmt::print("{:<14}", "aim");
  for (const Condition& condition : conditions) fmt::print(" {:>9}", condition.aim);
  fmt::print("\n{:<14}", "reached by");
  for (const std::size_t count : reached)
    fmt::print(" {:>9}", fmt::format("{} of {}", count, insideline::tests::voices().size()));
  fmt::print("\n\nnot reached: {}\n", fmt::join(totals.below_aim, ", "));
}

void print_reliability(const Totals& totals) {
  fmt::print("\nright of heard (%), by how sure\n{:<10}", "");
  for (int tenth = 0; tenth < 10; ++tenth) fmt::print(" {:>8}", fmt::format(".{}-", tenth));
  fmt::print("\n");
  Reliability all;
  const auto print_row = [](std::string_view name, const Reliability& row) {
    fmt::print("{:<10}", name);
    for (const auto& tenth : row.tenths)
      fmt::print(" {:>8}", tenth.heard == 0 ? std::string("-")
                                            : fmt::format("{:.0f}/{}",
                                                          100.0 * static_cast<double>(tenth.right) /
                                                              static_cast<double>(tenth.heard),
                                                          tenth.heard));
    fmt::print("\n");
  };
  for (const Condition& condition : conditions) {
    const Reliability& row = totals.reliability.at(condition.name);
    print_row(condition.name, row);
    for (std::size_t i = 0; i < row.tenths.size(); ++i) {
      all.tenths.at(i).heard += row.tenths.at(i).heard;
      all.tenths.at(i).right += row.tenths.at(i).right;
    }
  }
  print_row("all", all);
}

/// A line of eighths, `repeats` times half a minute, written without ever being held as a whole.
void write_long_recording(const std::filesystem::path& path, std::uint32_t repeats) {
  std::vector<int> scale;
  for (int i = 0; i < 115; ++i) scale.push_back(57 + (i * 7) % 24);
  auto sound = insideline::tests::sound_of(insideline::tests::line_of(scale, 0.25, 0.23));
  sound.resize(std::size_t{30} * insideline::tests::tone_rate);
  std::string bytes = insideline::tests::wav_of(sound);
  constexpr std::size_t head = 44;
  const auto put = [&](std::size_t at, std::size_t value) {
    for (std::size_t i = 0; i < 4; ++i) bytes[at + i] = static_cast<char>((value >> (8 * i)) & 0xFFU);
  };
  const std::size_t size = (bytes.size() - head) * repeats;
  put(4, size + head - 8);
  put(40, size);
  std::ofstream stream(path, std::ios::binary);
  stream << bytes.substr(0, head);
  for (std::uint32_t i = 0; i < repeats; ++i)
    stream.write(bytes.data() + head, static_cast<std::streamsize>(bytes.size() - head));
}

/// Of this program, started anew to do nothing but listen.
long peak_kilobytes(const std::string& own_program, const std::string& recording) {
  std::array<std::string, 3> words{own_program, "--hear", recording};
  std::array<char*, 4> arguments{words[0].data(), words[1].data(), words[2].data(), nullptr};
  const pid_t child = ::fork();
  if (child < 0) throw std::runtime_error("no process can be started");
  if (child == 0) {
    ::execv(arguments.front(), arguments.data());
    ::_exit(127);
  }
  int status = 0;
  rusage used{};
  if (::wait4(child, &status, 0, &used) != child || status != 0) throw std::runtime_error("listening failed");
  return used.ru_maxrss;
}

/// Before all else: what a child needs is counted from what its parent had.
void print_memory(const std::string& own_program) {
  const insideline::tests::OwnFolder folder;
  constexpr std::uint32_t ten_minutes = 20;
  std::array<long, 2> peaks{};
  for (std::size_t i = 0; i < peaks.size(); ++i) {
    write_long_recording(folder.path() / "long.wav", i == 0 ? 1 : ten_minutes);
    peaks.at(i) = peak_kilobytes(own_program, folder.file("long.wav"));
  }
  fmt::print("peak of memory: {} KB for 30 s, {} KB for 10 minutes, {:.2f} times for 20 times the length; aim 1.2\n\n",
             peaks[0], peaks[1], static_cast<double>(peaks[1]) / static_cast<double>(peaks[0]));
}

int hear(const std::string& recording) {
  insideline::io::SoundFile file{std::filesystem::path(recording)};
  return insideline::io::heard_line(file).notes.empty() ? 1 : 0;
}

int run(std::span<char*> arguments) {
  if (arguments.size() == 3 && arguments[1] == std::string_view("--hear")) return hear(arguments[2]);
  if (arguments.size() < 3) return fmt::print(stderr, "usage: listen_benchmark PIECE FONT [BARS]\n"), 2;
  print_memory(std::filesystem::read_symlink("/proc/self/exe").string());
  Rendering how{.font = arguments[2]};
  if (arguments.size() > 3) how.bars = std::stoi(arguments[3]);
  if (const auto absent = insideline::tests::absent_for_rendering(how.font)) {
    fmt::print("how well and how fast it listens was not measured: {}\n", *absent);
    return 0;
  }
  const insideline::Solo solo = insideline::io::read_solo(arguments[1]).solo;
  Totals totals;
  print_instruments(solo, how, totals);
  print_reliability(totals);
  fmt::print(
      "\n{:.0f} s of sound in {:.1f} s of a processor: {:.0f} times real time, aim {:.0f}; "
      "{:.2f} times as long as reading the file and one transform a moment\n",
      totals.sound_seconds, totals.listening_seconds, totals.sound_seconds / totals.listening_seconds,
      aim_times_real_time, totals.listening_seconds / totals.floor_seconds);
  return 0;
}

}  // namespace

int main(int count, char** arguments) {
  try {
    return run(std::span(arguments, static_cast<std::size_t>(count)));
  } catch (const std::exception& error) {
    fmt::print(stderr, "listen_benchmark: {}\n", error.what());
    return 1;
  }
}
