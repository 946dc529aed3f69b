// Runs another program: with an argument vector and no shell, in a folder of its own,
// within limits of time and memory, cut off from our standard input and output.
#pragma once

#include <signal.h>

#include <chrono>
#include <cstddef>
#include <cstdint>
#include <filesystem>
#include <string>
#include <vector>

namespace insideline::cli {

struct ChildLimits {
  std::chrono::seconds processor_time{60};  ///< what one process may use of a processor
  /// The program and what it starts are then killed. A machine may be busy with other things, so it is far longer.
  std::chrono::seconds clock_time{1800};
  std::uint64_t memory_bytes = 3ULL << 30U;  ///< of address space
  std::uint64_t file_bytes = 256ULL << 20U;  ///< of any file it writes
};

enum class ChildEnd : std::uint8_t {
  exited,       ///< see ChildResult::exit_status
  not_found,    ///< no such program on PATH
  not_started,  ///< see ChildResult::text
  killed,       ///< by a signal: a crash, or no memory left
  out_of_time,
  interrupted  ///< we were told to end meanwhile; the signal is still pending
};

struct ChildResult {
  ChildEnd end = ChildEnd::exited;
  int exit_status = 0;
  std::string text;  ///< what it wrote to standard output and error, the last 64 KiB; or why it did not start
};

/// Keeps SIGINT, SIGTERM and SIGHUP waiting until it goes, so that what is cleaned up
/// in between is cleaned up whatever happens. Of several, the outermost lets them through. It belongs to the main
/// thread.
class SignalsHeld {
 public:
  SignalsHeld();
  SignalsHeld(const SignalsHeld&) = delete;
  SignalsHeld& operator=(const SignalsHeld&) = delete;
  ~SignalsHeld();

  /// Readable while a signal waits.
  [[nodiscard]] int descriptor() const { return descriptor_; }

 private:
  sigset_t before_{};
  int descriptor_ = -1;
};

/// A folder that only we can enter, gone with all it holds at the end.
class PrivateFolder {
 public:
  /// Throws std::filesystem::filesystem_error where none can be made.
  PrivateFolder();
  PrivateFolder(const PrivateFolder&) = delete;
  PrivateFolder& operator=(const PrivateFolder&) = delete;
  ~PrivateFolder();

  [[nodiscard]] const std::filesystem::path& path() const { return path_; }

 private:
  std::filesystem::path path_;
};

/// `arguments` begin with the program's name, which is looked for on PATH. The program starts
/// in `folder`, which is its home and its place for temporary files.
ChildResult run_child(const std::vector<std::string>& arguments, const std::filesystem::path& folder,
                      const ChildLimits& limits, const SignalsHeld& signals);

}  // namespace insideline::cli
