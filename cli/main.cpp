// How the program begins and ends. Everything that goes wrong with an input arrives here.
#include "cli/engraver.hpp"
#include "cli/output.hpp"
#include "cli/program.hpp"
#include "cli/synthesizer.hpp"
#include "io/database/statement.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>
#include <malloc.h>

#include <csignal>
#include <exception>
#include <filesystem>
#include <new>
#include <stdexcept>

namespace insideline::cli {
namespace {

/// What one solo or one step of the work needed is there for the next. Given back, each page of it would be cleared and
/// counted anew by the kernel, a hundred and more a solo. A refusal changes no result.
void keep_memory() {
  constexpr int mebibyte = 1 << 20;
  constexpr int kept_bytes = 64 * mebibyte;
  constexpr int largest_block_bytes = 32 * mebibyte;  // more is not taken
  ::mallopt(M_TRIM_THRESHOLD, kept_bytes);
  ::mallopt(M_MMAP_THRESHOLD, largest_block_bytes);
}

}  // namespace
}  // namespace insideline::cli

int main(int argc, char** argv) {
  using insideline::cli::input_unusable;
  using insideline::cli::report_error;
  insideline::cli::reserve_standard_streams();
  insideline::cli::learn_rights_of_new_files();
  insideline::cli::keep_memory();
  std::signal(SIGXFSZ, SIG_IGN);  // a file that may not grow is an error like a full disk
  try {
    return insideline::cli::follow_command_line(argc, argv);
  } catch (const insideline::io::ReadError& error) {
    return report_error(error.what(), input_unusable);
  } catch (const insideline::io::DatabaseError& error) {
    return report_error(error.what(), input_unusable);
  } catch (const insideline::cli::OutputError& error) {
    return report_error(error.what(), input_unusable);
  } catch (const insideline::cli::EngravingError& error) {
    return report_error(error.what(), input_unusable);
  } catch (const insideline::cli::SoundError& error) {
    return report_error(error.what(), input_unusable);
  } catch (const std::filesystem::filesystem_error& error) {
    return report_error(fmt::format("{}: cannot be reached: {}", error.path1().string(), error.code().message()),
                        input_unusable);
  } catch (const std::overflow_error& error) {
    return report_error(fmt::format("a time in the input is too long or too finely divided ({})", error.what()),
                        input_unusable);
  } catch (const std::bad_alloc&) {
    return report_error("the input needs more memory than there is", input_unusable);
  } catch (const std::exception& error) {
    return report_error(fmt::format("this should not happen, please report it: {}", error.what()), input_unusable);
  }
}
