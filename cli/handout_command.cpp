// insideline handout SOLO: a printed sheet for a lesson.
#include "cli/child_process.hpp"
#include "cli/command.hpp"
#include "cli/destinations.hpp"
#include "cli/engraver.hpp"
#include "cli/midi_options.hpp"
#include "cli/output.hpp"
#include "cli/section_option.hpp"
#include "cli/solo_options.hpp"
#include "cli/task_options.hpp"
#include "io/read_result.hpp"
#include "reports/printed/handout.hpp"
#include "reports/reading_words.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <iterator>
#include <map>
#include <memory>
#include <optional>
#include <sstream>
#include <string>
#include <string_view>
#include <system_error>
#include <vector>

namespace insideline::cli {
namespace {

std::string bytes_for(const SoloOptions& solo) {
  std::string bytes = io::read_solo_bytes(solo.solo);
  check_midi_options(solo, bytes);
  return bytes;
}

constexpr std::size_t most_excerpt_bars = 1000;

struct HandoutCommand {
  SoloOptions solo;
  reports::HandoutOptions sheet;
  std::optional<std::string> output;
  std::optional<std::string> lilypond_text;
  TaskOptions tasks;
  std::vector<Instrument> players;  ///< of --class; each gets a sheet, and the outputs are folders
};

constexpr const char* handout_examples =
    "Examples:\n"
    "  insideline handout solo.musicxml -o solo.pdf\n"
    "      The whole solo with its chords, degrees, arpeggios and connections.\n"
    "  insideline handout solo.musicxml --changes tune.changes --bars 9-16 --worksheet -o sheet.pdf\n"
    "      Eight bars with blanks and tasks; the same with --key has the answers.\n"
    "  insideline handout tenor.musicxml --for trombone --paper letter -o trombone.pdf\n"
    "      As a trombonist reads it: in bass clef, and in an octave that lies well.\n"
    "  insideline handout solo.musicxml --class \"trumpet, alto-sax, piano\" --worksheet -o thursday\n"
    "      A worksheet for each of them, in the folder thursday.\n";

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

/// "alto-sax-key": what the file of a sheet is called, without its ending.
std::string sheet_name(std::string_view reader, reports::SheetKind kind) {
  switch (kind) {
    case reports::SheetKind::annotated: return std::string(reader);
    case reports::SheetKind::worksheet: return std::string(reader) + "-worksheet";
    case reports::SheetKind::key: return std::string(reader) + "-key";
  }
  return std::string(reader);
}

/// One sheet of a class: whose pitch it is in, and what its file is called.
struct ClassSheet {
  ReadingChoice reader;
  std::string name;
};

/// One for each player; the key also in concert pitch, for who teaches.
std::vector<ClassSheet> class_sheets(const HandoutCommand& command) {
  std::vector<ClassSheet> sheets;
  const reports::SheetKind kind = command.sheet.kind;
  if (!command.players.empty() && kind == reports::SheetKind::key)
    sheets.push_back({ReadingChoice{}, sheet_name("concert", kind)});
  for (const Instrument& player : command.players)
    sheets.push_back({{reports::ReadBy::player_of_an_instrument, player}, sheet_name(player.name, kind)});
  return sheets;
}

std::string file_of(const std::string& folder, const ClassSheet& sheet, std::string_view ending) {
  return (std::filesystem::path(folder) / (sheet.name + std::string(ending))).string();
}

void check_destinations(const HandoutCommand& command) {
  if (!command.output && !command.lilypond_text) throw CLI::RequiredError("-o FILE.pdf");
  const auto no_folder = [&](const std::optional<std::string>& output) {
    return !command.players.empty() && output && is_standard_output(*output);
  };
  constexpr const char* is_one_report = "- is standard output, which takes one sheet; with --class give a folder";
  if (no_folder(command.output)) throw CLI::ValidationError("--output", is_one_report);
  if (no_folder(command.lilypond_text)) throw CLI::ValidationError("--ly", is_one_report);
  Destinations destinations;
  if (command.players.empty()) {
    destinations.add("--output", command.output);
    destinations.add("--ly", command.lilypond_text);
  }
  for (const ClassSheet& sheet : class_sheets(command)) {
    if (command.output) destinations.add("--output", file_of(*command.output, sheet, ".pdf"));
    if (command.lilypond_text) destinations.add("--ly", file_of(*command.lilypond_text, sheet, ".ly"));
  }
  destinations.spare_all_of(command.solo);
  destinations.spare(command.tasks.tasks_file);
}

/// "trumpet, alto-sax": an error says what is wrong with it.
std::vector<Instrument> parsed_class(const std::string& text, std::string& problem) {
  std::vector<Instrument> players;
  std::istringstream names(text);
  for (std::string name; std::getline(names, name, ',');) {
    const std::size_t first = std::min(name.find_first_not_of(' '), name.size());
    name = name.substr(first, name.find_last_not_of(' ') + 1 - first);
    problem = not_an_instrument(name);
    if (!problem.empty()) return {};
    players.push_back(*instrument_named(name));
    if (std::ranges::count(players, players.back().name, &Instrument::name) > 1) {
      problem = "'" + name + "' stands twice; one sheet is for all of its players";
      return {};
    }
  }
  if (players.empty()) problem = "no instrument is named; known are: " + instrument_names();
  return players;
}

std::string not_a_class(const std::string& text) {
  std::string problem;
  parsed_class(text, problem);
  return problem;
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

/// The LilyPond text is written first: it is what remains where no page can be made.
void make_handout(HandoutCommand& command) {
  check_destinations(command);
  take_tasks(command.tasks, command.sheet);
  const reports::Report report = analyzed(command.solo, bytes_for(command.solo));
  const reports::Excerpt excerpt = checked_excerpt(command, report);
  check_page(report, command.sheet);
  for (const auto& destination : {command.lilypond_text, command.output})
    if (destination) expect_writable(*destination);  // before the slow part
  const std::string text = reports::handout_text(report, command.sheet);
  if (command.lilypond_text) write(*command.lilypond_text, text);
  if (command.output)
    write(*command.output, engraved_pdf(text, time_limit(excerpt), engraved_elsewhere("insideline handout --ly FILE")));
  for (const std::string& warning : report.warnings) print_warning(warning);
  for (const std::string& warning : task_warnings(report, command.sheet)) print_warning(warning);
}

/// A folder for the sheets of a class, made if it is not there; gone again where nothing came into it.
class SheetFolder {
 public:
  explicit SheetFolder(const std::filesystem::path& folder) : folder_(folder) {
    std::error_code failed;
    is_new_ = std::filesystem::create_directory(folder, failed);
    if (failed) throw OutputError(folder, failed.message());
    if (!std::filesystem::is_directory(folder)) throw OutputError(folder, "it is a file; --class takes a folder");
  }
  SheetFolder(const SheetFolder&) = delete;
  SheetFolder& operator=(const SheetFolder&) = delete;
  ~SheetFolder() {
    std::error_code not_empty;
    if (is_new_) std::filesystem::remove(folder_, not_empty);
  }

 private:
  std::filesystem::path folder_;
  bool is_new_ = false;
};

/// "thursday/trombone.pdf: an octave lower than played; 2 notes lie outside its range, E2 to Bb4".
std::string line_about(const std::string& file, const reports::Reading& reading, bool replaces) {
  std::string text = file + (replaces ? " (replaced)" : "");
  const std::string moved = reports::moved_in_words(reading);
  const std::string outside = reports::outside_in_words(reading);
  if (!moved.empty()) text += ": " + moved;
  if (!outside.empty()) text += (moved.empty() ? ": " : "; ") + outside;
  return text + "\n";
}

/// Every sheet is engraved before the first file appears.
void make_class(HandoutCommand& command) {
  check_destinations(command);
  take_tasks(command.tasks, command.sheet);
  const ReadSolo read = read_with_changes(command.solo, bytes_for(command.solo));
  const std::vector<ClassSheet> sheets = class_sheets(command);
  std::vector<reports::Reading> readings;
  std::vector<std::string> texts;
  std::vector<std::string> warnings;
  std::chrono::seconds limit{};
  for (const ClassSheet& sheet : sheets) {
    const reports::Report report = analyzed(read, command.solo, sheet.reader);
    limit = time_limit(checked_excerpt(command, report));
    check_page(report, command.sheet);
    readings.push_back(report.reading);
    texts.push_back(reports::handout_text(report, command.sheet));
    warnings = report.warnings;
    std::ranges::copy(task_warnings(report, command.sheet), std::back_inserter(warnings));
  }
  const SignalsHeld signals;  // they arrive when no folder and no file is left half made
  std::optional<SheetFolder> text_folder;
  std::optional<SheetFolder> page_folder;
  if (command.lilypond_text) text_folder.emplace(*command.lilypond_text);
  if (command.output) page_folder.emplace(*command.output);
  std::vector<PendingFile> files;
  std::string said;
  const auto put = [&](const std::string& folder, std::string_view ending, const std::vector<std::string>& contents) {
    for (std::size_t i = 0; i < sheets.size(); ++i) {
      const std::string file = file_of(folder, sheets[i], ending);
      said += line_about(file, readings[i], std::filesystem::exists(file));
      files.emplace_back(file, contents[i]);
    }
  };
  if (command.lilypond_text) put(*command.lilypond_text, ".ly", texts);
  if (command.output)
    put(*command.output, ".pdf", engraved_pdfs(texts, limit, engraved_elsewhere("insideline handout --ly FOLDER")));
  commit_all(files);
  for (const std::string& warning : warnings) print_warning(warning);
  write_to_standard_output(said);
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

void add_class_option(CLI::App& command, HandoutCommand& options) {
  auto* players = command.add_option_function<std::string>(
      "--class",
      [&options](const std::string& text) {
        std::string ignored;
        options.players = parsed_class(text, ignored);
      },
      "A sheet for each of these instruments, as its player reads it, in the folder of -o; --key is there in concert "
      "pitch as well");
  players->check(CLI::Validator(not_a_class, ""))->option_text("INSTRUMENT,INSTRUMENT...")->group("In whose pitch");
  for (const char* other : {"--written", "--concert", "--for"}) players->excludes(command.get_option(other));
}

void add_output_options(CLI::App& command, HandoutCommand& options) {
  static const std::map<std::string, reports::Paper> papers{{"a4", reports::Paper::a4},
                                                            {"letter", reports::Paper::letter}};
  const std::string group = "What is written";
  command.add_option("-o,--output", options.output, "The sheet, ready to print; with --class a folder")
      ->option_text("FILE.pdf")
      ->group(group);
  command
      .add_option_function<std::string>(
          "--paper", [&options](const std::string& word) { options.sheet.paper = papers.at(word); },
          "The size of the paper; default: a4")
      ->check(CLI::IsMember({"a4", "letter"}))
      ->option_text("a4|letter")
      ->group(group);
  command
      .add_option("--ly", options.lilypond_text,
                  "The sheet as LilyPond text as well, or instead; with --class a folder")
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
  add_class_option(*command, *options);
  add_content_options(*command, options->sheet);
  add_task_options(*command, options->tasks, options->sheet);
  add_output_options(*command, *options);
  command->footer(handout_examples);
  command->callback([options] {
    if (options->players.empty())
      make_handout(*options);
    else
      make_class(*options);
  });
}

}  // namespace insideline::cli
