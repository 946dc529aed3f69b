// insideline handout SOLO: a printed sheet for a lesson.
#include "cli/command.hpp"
#include "cli/destinations.hpp"
#include "cli/engraver.hpp"
#include "cli/output.hpp"
#include "cli/section_option.hpp"
#include "cli/solo_options.hpp"
#include "reports/printed/handout.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <chrono>
#include <filesystem>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

namespace insideline::cli {
namespace {

constexpr std::size_t most_excerpt_bars = 1000;

struct HandoutCommand {
  SoloOptions solo;
  reports::HandoutOptions sheet;
  std::optional<std::string> output;
  std::optional<std::string> lilypond_text;
};

constexpr const char* handout_examples =
    "Examples:\n"
    "  insideline handout solo.musicxml -o solo.pdf\n"
    "      The whole solo with its chords, degrees, arpeggios and connections.\n"
    "  insideline handout solo.musicxml --changes tune.changes --bars 9-16 --worksheet -o sheet.pdf\n"
    "      Eight bars with blanks and tasks; the same with --key has the answers.\n"
    "  insideline handout tenor.musicxml --written --paper letter -o tenor.pdf\n"
    "      As the player of a transposing instrument reads it.\n";

/// "9-16" or "9"; none for anything else.
std::optional<reports::BarRange> parsed_bars(std::string_view text) {
  const auto section = parsed_section(text);
  if (!section || section->kind != SectionKind::bars || section->last > furthest_bar) return std::nullopt;
  return reports::BarRange{section->first, section->last};
}

std::string not_bars(const std::string& text) {
  if (parsed_bars(text)) return {};
  return "'" + text + "' names no bars; write 9-16, or 9 for a single bar (0 is a pickup)";
}

void check_destinations(const HandoutCommand& command) {
  if (!command.output && !command.lilypond_text) throw CLI::RequiredError("-o FILE.pdf");
  Destinations destinations;
  destinations.add("--output", command.output);
  destinations.add("--ly", command.lilypond_text);
  destinations.spare_all_of(command.solo);
}

/// Throws io::ReadError where there is nothing to print.
reports::Excerpt checked_excerpt(const HandoutCommand& command, const reports::Report& report) {
  const auto excerpt = reports::excerpt_of(report.solo, command.sheet.bars);
  const std::string& file = report.source.solo_file;
  if (!excerpt)
    throw io::ReadError(io::place_of(file),
                        fmt::format("it has no such bars; they are numbered {} to {}", report.solo.bars.front().number,
                                    report.solo.bars.back().number));
  if (excerpt->last_bar - excerpt->first_bar >= most_excerpt_bars)
    throw io::ReadError(io::place_of(file), fmt::format("it is longer than the {} bars that one handout takes; "
                                                        "print a part of it with --bars, as in --bars 1-64",
                                                        most_excerpt_bars));
  return *excerpt;
}

/// A page takes LilyPond a second or two; the rest is for slow and busy machines.
std::chrono::seconds time_limit(const reports::Excerpt& excerpt) {
  constexpr std::size_t start_seconds = 60;
  return std::chrono::seconds(start_seconds + (excerpt.last_bar - excerpt.first_bar) / 2);
}

void write(std::string_view destination, std::string_view bytes) {
  if (is_standard_output(destination)) return write_to_standard_output(bytes);
  PendingFile(std::filesystem::path(destination), bytes).commit();
}

/// Throws before the slow part where the sheet could not be stored after it.
void expect_writable(const HandoutCommand& command) {
  for (const auto& destination : {command.output, command.lilypond_text})
    if (destination && !is_standard_output(*destination)) const PendingFile trial(*destination, "");
}

/// The LilyPond text is written first: it is what remains where no page can be made.
void make_handout(const HandoutCommand& command) {
  check_destinations(command);
  const reports::Report report = analyzed(command.solo);
  const reports::Excerpt excerpt = checked_excerpt(command, report);
  expect_writable(command);
  const std::string text = reports::handout_text(report, command.sheet);
  if (command.lilypond_text) write(*command.lilypond_text, text);
  if (command.output)
    write(*command.output, engraved_pdf(text, time_limit(excerpt), engraved_elsewhere("insideline handout --ly FILE")));
  for (const std::string& warning : report.warnings) print_warning(warning);
}

void add_content_options(CLI::App& command, reports::HandoutOptions& sheet) {
  const std::string group = "What is on the sheet";
  auto* worksheet = command.add_flag_callback(
      "--worksheet", [&sheet] { sheet.kind = reports::SheetKind::worksheet; },
      "Blanks in place of degrees, plain notes, and tasks made from what is in the solo");
  auto* key = command.add_flag_callback(
      "--key", [&sheet] { sheet.kind = reports::SheetKind::key; }, "The answers to that worksheet");
  worksheet->group(group);
  key->group(group)->excludes(worksheet);
  command
      .add_option_function<std::string>(
          "--bars", [&sheet](const std::string& text) { sheet.bars = parsed_bars(text); },
          "Print these bars only: 9-16, or a single one; 0 is a pickup")
      ->check(CLI::Validator(not_bars, ""))
      ->option_text("FIRST-LAST")
      ->group(group);
  command
      .add_flag_callback(
          "--no-chords", [&sheet] { sheet.chords = reports::ChordRow::left_out; }, "Leave the chord symbols out")
      ->group(group);
}

void add_output_options(CLI::App& command, HandoutCommand& options) {
  static const std::map<std::string, reports::Paper> papers{{"a4", reports::Paper::a4},
                                                            {"letter", reports::Paper::letter}};
  const std::string group = "What is written";
  command.add_option("-o,--output", options.output, "The sheet, ready to print")->option_text("FILE.pdf")->group(group);
  command
      .add_option_function<std::string>(
          "--paper", [&options](const std::string& word) { options.sheet.paper = papers.at(word); },
          "The size of the paper; default: a4")
      ->check(CLI::IsMember({"a4", "letter"}))
      ->option_text("a4|letter")
      ->group(group);
  command.add_option("--ly", options.lilypond_text, "The sheet as LilyPond text as well, or instead")
      ->option_text("FILE")
      ->group(group);
}

}  // namespace

void add_handout_command(CLI::App& program) {
  CLI::App* command =
      program.add_subcommand("handout", "Print a solo for a lesson: annotated, as a worksheet, or its key");
  const auto options = std::make_shared<HandoutCommand>();
  add_solo_options(*command, options->solo);
  add_reading_pitch_options(*command, options->solo.pitch);
  add_content_options(*command, options->sheet);
  add_output_options(*command, *options);
  command->footer(handout_examples);
  command->callback([options] { make_handout(*options); });
}

}  // namespace insideline::cli
