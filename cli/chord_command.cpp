// insideline chord SYMBOL...: what the program understands by a chord symbol.
#include "analyzer/harmony/chord_symbol.hpp"
#include "cli/command.hpp"
#include "cli/output.hpp"
#include "cli/terminal.hpp"
#include "io/read_result.hpp"
#include "reports/chord_report.hpp"

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <memory>
#include <string>
#include <vector>

namespace insideline::cli {
namespace {

constexpr const char* chord_examples =
    "Examples:\n"
    "  insideline chord \"C7(b9)\" F#m7b5 Ebmaj7/G\n"
    "  insideline chord C:min7/b3\n"
    "      A label of music research is read as well.\n";

/// The symbol as its own line with a caret; its name stands where a file's name would.
[[noreturn]] void refuse(const std::string& symbol, const UnreadableSymbol& problem) {
  std::string message = problem.message;
  for (std::size_t i = 0; i < problem.nearest.size(); ++i)
    message += fmt::format("{}\"{}\"", i == 0 ? "; did you mean " : " or ", problem.nearest[i]);
  throw io::ReadError(io::place_in("chord symbol", symbol, problem.offset_bytes), message);
}

std::string reports_on(const std::vector<std::string>& symbols, reports::Colour colour) {
  std::string text;
  for (const std::string& symbol : symbols) {
    const auto reading = parse_chord_symbol(symbol);
    if (!reading) refuse(symbol, reading.error());
    if (!text.empty()) text += "\n";
    text += *reading ? reports::chord_report(**reading, colour) : reports::no_chord_report(symbol, colour);
  }
  return text;
}

}  // namespace

void add_chord_command(CLI::App& program) {
  CLI::App* command =
      program.add_subcommand("chord", "Show what a chord symbol is understood as: tones, tensions, notes to avoid");
  const auto symbols = std::make_shared<std::vector<std::string>>();
  command->add_option("SYMBOL", *symbols, "Chord symbols, such as Ebmaj7 or \"C7(b9)\"")->required();
  command->footer(chord_examples);
  command->callback([symbols] {
    write_to_standard_output(reports_on(*symbols, colour_of_standard_output(ColourChoice::automatic)));
  });
}

}  // namespace insideline::cli
