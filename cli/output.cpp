#include "cli/output.hpp"

#include "reports/text/display_width.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <system_error>
#include <utility>

namespace insideline::cli {
namespace {

std::string reason_of(int error_number) { return std::generic_category().message(error_number); }

/// Writes all of `bytes`; 0, or the error number.
int write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written < 0) return errno;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

mode_t rights_of_new_files() {
  static const mode_t rights = [] {
    const mode_t mask = ::umask(0);
    ::umask(mask);
    return 0666U & ~mask;
  }();
  return rights;
}

/// The rights a new file would get, or those of the file that is replaced.
mode_t wanted_mode(const std::filesystem::path& file) {
  struct stat present {};
  return ::stat(file.c_str(), &present) == 0 ? present.st_mode & 07777U : rights_of_new_files();
}

bool is_device_or_pipe(const std::filesystem::path& file) {
  std::error_code ignored;
  const auto status = std::filesystem::status(file, ignored);
  return std::filesystem::exists(status) && !std::filesystem::is_regular_file(status) &&
         !std::filesystem::is_directory(status);
}

/// The file behind symbolic links, so that a link is kept and its target replaced.
std::filesystem::path behind_links(const std::filesystem::path& file) {
  std::error_code failed;
  const std::filesystem::path target = std::filesystem::canonical(file, failed);
  return failed ? file : target;
}

}  // namespace

OutputError::OutputError(const std::filesystem::path& file, std::string_view reason)
    : std::runtime_error(fmt::format("{}: cannot be written: {}", file.string(), reason)) {}

bool is_standard_output(std::string_view destination) { return destination == "-"; }

PendingFile::PendingFile(const std::filesystem::path& file, std::string_view bytes) : file_(file) {
  if (std::filesystem::is_directory(file)) throw OutputError(file, "it is a folder; give a file name");
  if (is_device_or_pipe(file)) {
    bytes_for_device_ = bytes;
    return;
  }
  const std::filesystem::path target = behind_links(file);
  std::string name = (target.parent_path() / ("." + target.filename().string() + ".XXXXXX")).string();
  const int descriptor = ::mkstemp(name.data());
  if (descriptor < 0) throw OutputError(file, reason_of(errno));
  temporary_ = name;
  int error_number = write_all(descriptor, bytes);
  if (error_number == 0 && ::fchmod(descriptor, wanted_mode(target)) != 0) error_number = errno;
  if (::close(descriptor) != 0 && error_number == 0) error_number = errno;
  if (error_number == 0) return;
  ::unlink(temporary_.c_str());
  throw OutputError(file, reason_of(error_number));
}

PendingFile::PendingFile(PendingFile&& other) noexcept
    : file_(std::move(other.file_)),
      temporary_(std::exchange(other.temporary_, {})),
      bytes_for_device_(std::move(other.bytes_for_device_)) {}

PendingFile::~PendingFile() {
  if (!temporary_.empty()) ::unlink(temporary_.c_str());
}

void PendingFile::commit() {
  if (temporary_.empty()) {
    const int descriptor = ::open(file_.c_str(), O_WRONLY | O_CLOEXEC);
    if (descriptor < 0) throw OutputError(file_, reason_of(errno));
    const int error_number = write_all(descriptor, bytes_for_device_);
    ::close(descriptor);
    if (error_number != 0) throw OutputError(file_, reason_of(error_number));
    return;
  }
  if (::rename(temporary_.c_str(), behind_links(file_).c_str()) != 0) throw OutputError(file_, reason_of(errno));
  temporary_.clear();
}

void expect_writable(const std::string& destination) {
  if (!is_standard_output(destination)) const PendingFile trial(destination, "");
}

void commit_all(std::span<PendingFile> files) {
  for (const bool device : {true, false})
    for (PendingFile& file : files)
      if (file.is_device() == device) file.commit();
}

void write_to_standard_error(std::string_view message) {
  constexpr std::size_t longest_line = 2000;  // bytes
  std::string text;
  for (std::size_t at = 0; at <= message.size();) {
    const std::size_t end = std::min(message.find('\n', at), message.size());
    const std::string_view line = message.substr(at, end - at);
    text += reports::printable(line.substr(0, longest_line)) + (line.size() > longest_line ? "...\n" : "\n");
    at = end + 1;
  }
  write_all(STDERR_FILENO, text);  // where nobody hears the message, the exit status still tells
}

void reserve_standard_streams() {
  // Opened for reading, so that writing fails as it should.
  int descriptor = ::open("/dev/null", O_RDONLY);
  while (descriptor >= 0 && descriptor <= STDERR_FILENO) descriptor = ::open("/dev/null", O_RDONLY);
  if (descriptor >= 0) ::close(descriptor);
}

void learn_rights_of_new_files() { rights_of_new_files(); }

void write_to_standard_output(std::string_view bytes) {
  const int error_number = write_all(STDOUT_FILENO, bytes);
  if (error_number != 0) throw OutputError("standard output", reason_of(error_number));
}

}  // namespace insideline::cli
