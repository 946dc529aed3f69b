#include "cli/hearing_option.hpp"

#include "analyzer/labels/label_notes.hpp"
#include "analyzer/phrases.hpp"
#include "io/hearing/hearing_file.hpp"
#include "io/solo_files.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

namespace insideline::cli {

void add_hearing_file_option(CLI::App& command, SoloOptions& options) {
  command
      .add_option("--hearing", options.hearing,
                  "What you hear otherwise, note by note, in a text file; default: solo.hearing beside the solo")
      ->option_text("FILE")
      ->group("How it is heard");
}

void add_no_hearing_option(CLI::App& command, SoloOptions& options) {
  command
      .add_flag_callback(
          "--no-hearing", [&options] { options.hearing_beside = HearingBeside::left_alone; },
          "Leave the file solo.hearing beside a solo alone")
      ->group("How it is heard");
}

std::optional<std::string> hearing_file_of(const SoloOptions& options) {
  if (options.hearing) return options.hearing;
  return options.hearing_beside == HearingBeside::taken ? io::hearing_beside(options.solo) : std::nullopt;
}

void take_hearing(const SoloOptions& options, const Harmony& harmony, reports::Report& report) {
  const auto file = hearing_file_of(options);
  if (!file) return;
  const io::HearingReading hearing = io::read_hearing(*file, report.solo);
  report.source.hearing_file = file_name(*file);
  report.settings.pins = hearing.pins;
  const auto faults =
      pin_faults(report.solo, harmony, find_phrases(report.solo, harmony, report.settings), report.settings);
  if (faults.empty()) return;
  throw io::ReadError(
      hearing.places[faults.front().pin],
      fmt::format("the note cannot be heard that way: {}; change the line or take it out", faults.front().why));
}

}  // namespace insideline::cli
