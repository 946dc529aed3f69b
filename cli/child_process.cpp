#include "cli/child_process.hpp"

#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/signalfd.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <cstdlib>
#include <optional>
#include <string_view>
#include <system_error>

namespace insideline::cli {
namespace {

using Clock = std::chrono::steady_clock;

constexpr std::size_t most_text = 64UL << 10U;
constexpr int could_not_start = 127;

std::string error_words(int error_number) { return std::generic_category().message(error_number); }

sigset_t ending_signals() {
  sigset_t signals;
  ::sigemptyset(&signals);
  for (const int number : {SIGINT, SIGTERM, SIGHUP}) ::sigaddset(&signals, number);
  return signals;
}

/// Two ends of a pipe, closed when it goes; neither is handed on to a program.
class Pipe {
 public:
  Pipe() {
    if (::pipe2(ends_.data(), O_CLOEXEC) != 0) throw std::system_error(errno, std::generic_category(), "pipe");
  }
  Pipe(const Pipe&) = delete;
  Pipe& operator=(const Pipe&) = delete;
  ~Pipe() {
    close_end(0);
    close_end(1);
  }
  [[nodiscard]] int reading() const { return ends_[0]; }
  [[nodiscard]] int writing() const { return ends_[1]; }
  void close_writing() { close_end(1); }

 private:
  void close_end(std::size_t end) {
    if (ends_[end] >= 0) ::close(ends_[end]);
    ends_[end] = -1;
  }
  std::array<int, 2> ends_{-1, -1};
};

/// The program named on PATH; empty entries of PATH, the current folder, are not searched.
std::optional<std::string> found_on_path(const std::string& program) {
  const char* path = std::getenv("PATH");
  std::string_view rest = path == nullptr ? "" : path;
  while (!rest.empty()) {
    const std::size_t colon = std::min(rest.find(':'), rest.size());
    const std::string file = std::string(rest.substr(0, colon)) + "/" + program;
    rest.remove_prefix(std::min(colon + 1, rest.size()));
    std::error_code ignored;
    if (colon > 0 && std::filesystem::is_regular_file(file, ignored) && ::access(file.c_str(), X_OK) == 0) return file;
  }
  return std::nullopt;
}

void limit(int resource, std::uint64_t most) {
  struct rlimit wanted {};
  ::getrlimit(static_cast<__rlimit_resource>(resource), &wanted);
  wanted.rlim_max = std::min<rlim_t>(wanted.rlim_max, most);
  wanted.rlim_cur = wanted.rlim_max;
  ::setrlimit(static_cast<__rlimit_resource>(resource), &wanted);
}

/// What the new process is started with; made before it exists, as it may not allocate.
struct Start {
  std::string file;
  std::string folder;
  std::vector<std::string> arguments;
  std::vector<std::string> environment;
  std::vector<char*> argument_pointers;
  std::vector<char*> environment_pointers;
};

std::vector<char*> pointers(std::vector<std::string>& texts) {
  std::vector<char*> result;
  for (std::string& text : texts) result.push_back(text.data());
  result.push_back(nullptr);
  return result;
}

std::vector<std::string> environment_in(const std::string& folder) {
  const char* path = std::getenv("PATH");
  return {std::string("PATH=") + (path == nullptr ? "" : path), "HOME=" + folder, "TMPDIR=" + folder,
          "XDG_CACHE_HOME=" + folder, "LC_ALL=C.UTF-8"};
}

/// Runs in the new process, and never returns. Only what is safe between fork and exec.
[[noreturn]] void become(Start& start, const ChildLimits& limits, int output, int complaint) {
  ::setpgid(0, 0);
  ::prctl(PR_SET_PDEATHSIG, SIGKILL);
  limit(RLIMIT_AS, limits.memory_bytes);
  limit(RLIMIT_CPU, static_cast<std::uint64_t>(limits.processor_time.count()));
  limit(RLIMIT_FSIZE, limits.file_bytes);
  limit(RLIMIT_CORE, 0);
  ::signal(SIGXFSZ, SIG_DFL);
  const sigset_t signals = ending_signals();
  const int nothing = ::open("/dev/null", O_RDONLY | O_CLOEXEC);
  const bool is_set_up = nothing >= 0 && ::dup2(nothing, STDIN_FILENO) >= 0 && ::dup2(output, STDOUT_FILENO) >= 0 &&
                         ::dup2(output, STDERR_FILENO) >= 0 && ::chdir(start.folder.c_str()) == 0 &&
                         ::sigprocmask(SIG_UNBLOCK, &signals, nullptr) == 0;
  if (is_set_up) ::execve(start.file.c_str(), start.argument_pointers.data(), start.environment_pointers.data());
  const int error_number = errno;
  const ssize_t told = ::write(complaint, &error_number, sizeof error_number);
  ::_exit(told > 0 ? could_not_start : could_not_start - 1);
}

int milliseconds_until(Clock::time_point deadline) {
  const auto left = std::chrono::duration_cast<std::chrono::milliseconds>(deadline - Clock::now()).count();
  return static_cast<int>(std::clamp<std::int64_t>(left, 0, 1000));
}

/// Reads until every writer is gone. What ends it early, if anything does.
std::optional<ChildEnd> listen(int output, const SignalsHeld& signals, Clock::time_point deadline, std::string& text) {
  std::array<char, 4096> buffer{};
  while (true) {
    std::array<pollfd, 2> watched{{{output, POLLIN, 0}, {signals.descriptor(), POLLIN, 0}}};
    const int ready = ::poll(watched.data(), watched.size(), milliseconds_until(deadline));
    if ((watched[1].revents & POLLIN) != 0) return ChildEnd::interrupted;
    if (Clock::now() >= deadline) return ChildEnd::out_of_time;
    if (ready <= 0 || watched[0].revents == 0) continue;
    const ssize_t count = ::read(output, buffer.data(), buffer.size());
    if (count < 0 && errno == EINTR) continue;
    if (count <= 0) return std::nullopt;
    text.append(buffer.data(), static_cast<std::size_t>(count));
    if (text.size() > most_text) text.erase(0, text.size() - most_text);
  }
}

int wait_for(pid_t child) {
  int status = 0;
  while (::waitpid(child, &status, 0) < 0 && errno == EINTR) {
  }
  return status;
}

/// The error number that the new process sent before it gave up; none once it runs the program.
std::optional<int> complaint_from(Pipe& complaint) {
  complaint.close_writing();
  int error_number = 0;
  ssize_t count = 0;
  do count = ::read(complaint.reading(), &error_number, sizeof error_number);
  while (count < 0 && errno == EINTR);
  if (count == static_cast<ssize_t>(sizeof error_number)) return error_number;
  return std::nullopt;
}

}  // namespace

SignalsHeld::SignalsHeld() {
  const sigset_t signals = ending_signals();
  ::sigprocmask(SIG_BLOCK, &signals, &before_);
  descriptor_ = ::signalfd(-1, &signals, SFD_CLOEXEC | SFD_NONBLOCK);
}

SignalsHeld::~SignalsHeld() {
  if (descriptor_ >= 0) ::close(descriptor_);
  ::sigprocmask(SIG_SETMASK, &before_, nullptr);
}

PrivateFolder::PrivateFolder() {
  std::string name = (std::filesystem::temp_directory_path() / "insideline-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr)
    throw std::filesystem::filesystem_error("no private folder", name, {errno, std::generic_category()});
  path_ = name;
}

PrivateFolder::~PrivateFolder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

ChildResult run_child(const std::vector<std::string>& arguments, const std::filesystem::path& folder,
                      const ChildLimits& limits, const SignalsHeld& signals) {
  const auto file = found_on_path(arguments.front());
  if (!file) return {ChildEnd::not_found, 0, {}};
  Start start{*file, folder.string(), arguments, environment_in(folder.string()), {}, {}};
  start.argument_pointers = pointers(start.arguments);
  start.environment_pointers = pointers(start.environment);
  Pipe output;
  Pipe complaint;
  const Clock::time_point deadline = Clock::now() + limits.clock_time;
  const pid_t child = ::fork();
  if (child < 0) return {ChildEnd::not_started, 0, error_words(errno)};
  if (child == 0) become(start, limits, output.writing(), complaint.writing());
  ::setpgid(child, child);
  output.close_writing();
  if (const auto error_number = complaint_from(complaint)) {
    wait_for(child);
    return {ChildEnd::not_started, 0, error_words(*error_number)};
  }
  std::string text;
  const auto cut_short = listen(output.reading(), signals, deadline, text);
  if (cut_short) ::kill(-child, SIGKILL);
  const int status = wait_for(child);
  if (cut_short) return {*cut_short, 0, text};
  if (!WIFEXITED(status)) return {ChildEnd::killed, 0, text};
  return {ChildEnd::exited, WEXITSTATUS(status), text};
}

}  // namespace insideline::cli
