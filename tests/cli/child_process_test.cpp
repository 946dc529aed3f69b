#include "cli/child_process.hpp"

#include <catch2/catch.hpp>

#include <chrono>
#include <filesystem>
#include <string>
#include <system_error>
#include <thread>

using insideline::cli::ChildEnd;
using insideline::cli::ChildLimits;
using insideline::cli::ChildResult;
using insideline::cli::PrivateFolder;
using insideline::cli::run_child;
using insideline::cli::SignalsHeld;

namespace {

ChildResult shell(const std::string& commands, const ChildLimits& limits = {}) {
  const SignalsHeld signals;
  const PrivateFolder folder;
  return run_child({"sh", "-c", commands}, folder.path(), limits, signals);
}

/// Not one that has ended and that nobody has asked after yet.
bool is_running(const std::filesystem::path& process) {
  std::error_code none;
  return !std::filesystem::read_symlink(process / "exe", none).empty();
}

}  // namespace

TEST_CASE("a program's words and exit status come back") {
  const ChildResult result = shell("echo out; echo err >&2; exit 3");
  CHECK(result.end == ChildEnd::exited);
  CHECK(result.exit_status == 3);
  CHECK(result.text == "out\nerr\n");
}

TEST_CASE("an argument stays one argument, whatever is in it") {
  const SignalsHeld signals;
  const PrivateFolder folder;
  CHECK(run_child({"printf", "%s|", "a b", "$(exit 1);\"'"}, folder.path(), {}, signals).text == "a b|$(exit 1);\"'|");
}

TEST_CASE("a program that takes too long is ended with all it has started") {
  // Both would outlast any test; that this comes back at all is what ends them.
  const ChildResult result = shell("sleep 100000 & echo $!; sleep 100000", {.clock_time = std::chrono::seconds(1)});
  CHECK(result.end == ChildEnd::out_of_time);
  const std::filesystem::path second = std::filesystem::path("/proc") / std::to_string(std::stoi(result.text));
  while (is_running(second)) std::this_thread::yield();
}

TEST_CASE("a program that keeps a processor busy for too long is killed") {
  CHECK(shell("while :; do :; done", {.processor_time = std::chrono::seconds(1)}).end == ChildEnd::killed);
}

TEST_CASE("a program gets no more memory, time and file size than it is given") {
  ChildLimits limits{.processor_time = std::chrono::seconds(7)};
  limits.memory_bytes = 512UL << 20U;
  limits.file_bytes = 1UL << 20U;
  CHECK(shell("ulimit -v; ulimit -t; ulimit -f; ulimit -c", limits).text == "524288\n7\n2048\n0\n");
}

TEST_CASE("a program that is not there is told from one that fails") {
  const SignalsHeld signals;
  const PrivateFolder folder;
  CHECK(run_child({"no-such-program-anywhere"}, folder.path(), {}, signals).end == ChildEnd::not_found);
  CHECK(run_child({"sh", "-c", "kill -KILL $$"}, folder.path(), {}, signals).end == ChildEnd::killed);
}

TEST_CASE("a private folder is for its owner alone and goes with what is in it") {
  std::filesystem::path path;
  {
    const PrivateFolder folder;
    path = folder.path();
    CHECK(std::filesystem::status(path).permissions() == std::filesystem::perms::owner_all);
    std::filesystem::create_directory(path / "inner");
  }
  CHECK_FALSE(std::filesystem::exists(path));
}
