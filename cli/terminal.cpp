#include "cli/terminal.hpp"

#include <unistd.h>

#include <fmt/format.h>
#include <CLI/CLI.hpp>

#include <cstdio>
#include <cstdlib>
#include <map>
#include <string>
#include <string_view>

namespace insideline::cli {
namespace {

/// Empty where it is not set.
std::string_view environment(const char* name) {
  const char* value = std::getenv(name);
  return value == nullptr ? std::string_view{} : std::string_view{value};
}

/// Asked once: progress is told for every solo of a collection.
bool is_watched() {
  static const bool watched = ::isatty(STDERR_FILENO) == 1;
  return watched;
}

/// In place of the line before.
void show_line(const std::string& line) {
  std::fputs(("\r\x1b[K" + line).c_str(), stderr);
  std::fflush(stderr);
}

}  // namespace

reports::Colour colour_of_standard_output(ColourChoice choice) {
  switch (choice) {
    case ColourChoice::always: return reports::Colour::on;
    case ColourChoice::never: return reports::Colour::off;
    case ColourChoice::automatic: break;
  }
  const bool wanted = ::isatty(STDOUT_FILENO) == 1 && environment("NO_COLOR").empty() &&
                      environment("TERM") != "dumb" && !environment("TERM").empty();
  return wanted ? reports::Colour::on : reports::Colour::off;
}

void add_colour_option(CLI::App& command, ColourChoice& colour, const std::string& group) {
  static const std::map<std::string, ColourChoice> choices{
      {"auto", ColourChoice::automatic}, {"always", ColourChoice::always}, {"never", ColourChoice::never}};
  command
      .add_option_function<std::string>(
          "--color,--colour", [&colour](const std::string& word) { colour = choices.at(word); },
          "Colour: auto (the default) on a terminal that wants it")
      ->check(CLI::IsMember({"auto", "always", "never"}))
      ->option_text("auto|always|never")
      ->group(group);
}

void show_progress(std::string_view what, std::size_t done, std::size_t of) {
  if (is_watched()) show_line(done < of ? fmt::format("{}: {} of {}", what, done, of) : std::string{});
}

void show_count(std::string_view what, std::size_t count) {
  if (is_watched()) show_line(fmt::format("{}: {}", what, count));
}

}  // namespace insideline::cli
