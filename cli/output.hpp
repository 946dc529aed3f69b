// Where results go: a file that is there whole or not at all, or standard output.
#pragma once

#include <filesystem>
#include <span>
#include <stdexcept>
#include <string>
#include <string_view>

namespace insideline::cli {

/// An output cannot be written. `what()` names it and says why.
class OutputError : public std::runtime_error {
 public:
  OutputError(const std::filesystem::path& file, std::string_view reason);
};

/// True for "-", which stands for standard output.
bool is_standard_output(std::string_view destination);

/// A file being written. Its bytes are in a temporary file beside it until `commit`
/// puts that in its place; without a commit nothing is left behind.
/// A device or a pipe is written to as it is, at `commit`.
class PendingFile {
 public:
  /// Throws OutputError where the bytes cannot be stored.
  PendingFile(const std::filesystem::path& file, std::string_view bytes);
  PendingFile(PendingFile&& other) noexcept;
  PendingFile(const PendingFile&) = delete;
  PendingFile& operator=(const PendingFile&) = delete;
  PendingFile& operator=(PendingFile&&) = delete;
  ~PendingFile();

  void commit();
  /// Where there is nothing to take back once it is written.
  [[nodiscard]] bool is_device() const { return temporary_.empty(); }

 private:
  std::filesystem::path file_;
  std::filesystem::path temporary_;  ///< empty once there is none
  std::string bytes_for_device_;
};

/// Throws OutputError where no file could be stored there, and leaves all as it was. Standard output can always be
/// tried.
void expect_writable(const std::string& destination);

/// Devices and pipes first, as they alone can still fail, so that then no file appears.
void commit_all(std::span<PendingFile> files);

/// An error or a warning. Nothing in it can drive a terminal, its lines are cut where they are endless, and it does not
/// matter whether anybody listens.
void write_to_standard_error(std::string_view message);

/// Sees to it that no file of ours gets the number of a standard stream that was closed. To be called first of all.
void reserve_standard_streams();

/// To be called before any thread is started: to learn the rights that a new file gets, they are changed for a moment.
void learn_rights_of_new_files();

/// Throws OutputError where not every byte arrives.
void write_to_standard_output(std::string_view bytes);

}  // namespace insideline::cli
