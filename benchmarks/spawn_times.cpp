// spawn_times ROUNDS FLOOR_PROGRAM ARGUMENT... -- PROGRAM ARGUMENT...: how long two programs take from spawn to exit.
// They take turns, so that whatever else the machine does falls on both. Prints both medians and their ratio.
#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <exception>
#include <stdexcept>
#include <string>
#include <vector>

extern char** environ;

namespace {

using Command = std::vector<std::string>;

/// Milliseconds from spawn to exit; standard output is thrown away.
double run_once(Command& command) {
  std::vector<char*> arguments;
  for (std::string& word : command) arguments.push_back(word.data());
  arguments.push_back(nullptr);
  posix_spawn_file_actions_t actions;
  posix_spawn_file_actions_init(&actions);
  posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);

  const auto start = std::chrono::steady_clock::now();
  pid_t child = 0;
  const int spawned = posix_spawn(&child, arguments[0], &actions, nullptr, arguments.data(), environ);
  int status = 0;
  if (spawned == 0) waitpid(child, &status, 0);
  const std::chrono::duration<double, std::milli> elapsed = std::chrono::steady_clock::now() - start;

  posix_spawn_file_actions_destroy(&actions);
  if (spawned != 0 || !WIFEXITED(status) || WEXITSTATUS(status) != 0) {
    throw std::runtime_error(command[0] + " failed");
  }
  return elapsed.count();
}

double median(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

}  // namespace

int main(int count, char** arguments) {
  try {
    const std::vector<std::string> words(arguments + 1, arguments + count);
    const auto separator = std::find(words.begin(), words.end(), "--");
    if (words.size() < 4 || separator - words.begin() < 2 || separator == words.end() - 1 || separator == words.end()) {
      throw std::invalid_argument("usage: spawn_times ROUNDS FLOOR... -- PROGRAM...");
    }
    const int rounds = std::stoi(words[0]);
    Command floor(words.begin() + 1, separator);
    Command program(separator + 1, words.end());
    std::vector<double> floor_times;
    std::vector<double> program_times;
    for (int round = -3; round < rounds; ++round) {  // the first three warm the file cache and are not counted
      const double floor_ms = run_once(floor);
      const double program_ms = run_once(program);
      if (round < 0) continue;
      floor_times.push_back(floor_ms);
      program_times.push_back(program_ms);
    }
    const double floor_ms = median(floor_times);
    const double program_ms = median(program_times);
    std::printf(
        "whole programs, spawn to exit, medians of %d: load only %.2f ms, insideline analyze %.2f ms, ratio %.2f\n",
        rounds, floor_ms, program_ms, program_ms / floor_ms);
    return 0;
  } catch (const std::exception& error) {
    std::fprintf(stderr, "spawn_times: %s\n", error.what());
    return 1;
  }
}
