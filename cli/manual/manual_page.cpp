#include "cli/manual/manual_page.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <sstream>
#include <string_view>

namespace insideline::cli {
namespace {

/// What troff would take for its own, and what it would print as another character.
std::string escaped(std::string_view text) {
  std::string result;
  for (const char c : text) {
    switch (c) {
      case '\\': result += "\\(rs"; break;
      case '-': result += "\\-"; break;
      case '\'': result += "\\(aq"; break;
      case '`': result += "\\(ga"; break;
      case '^': result += "\\(ha"; break;
      case '~': result += "\\(ti"; break;
      default: result += c;
    }
  }
  return result.starts_with('.') ? "\\&" + result : result;
}

std::string bold(std::string_view text) { return "\\fB" + escaped(text) + "\\fR"; }
std::string slanted(std::string_view text) { return "\\fI" + escaped(text) + "\\fR"; }

std::string page_name(const CommandText& command) { return "insideline-" + command.name; }

std::string heading(std::string_view name, std::string_view description, const std::string& version) {
  std::string capitals(name);
  std::ranges::transform(capitals, capitals.begin(),
                         [](char c) { return static_cast<char>(std::toupper(static_cast<unsigned char>(c))); });
  while (description.ends_with('.')) description.remove_suffix(1);
  return fmt::format(".TH {} 1 \"\" \"insideline {}\" \"User Commands\"\n.SH NAME\n{} \\- {}\n", escaped(capitals),
                     escaped(version), escaped(name), escaped(description));
}

std::string option_row(const OptionText& option) {
  std::string names;
  for (const std::string& name : option.names) names += (names.empty() ? "" : ", ") + bold(name);
  const std::string value = option.value.empty() ? "" : (names.empty() ? "" : " ") + slanted(option.value);
  return ".TP\n" + names + value + "\n" + escaped(option.description) + "\n";
}

std::string option_rows(const CommandText& command) {
  std::string text = ".SH OPTIONS\n";
  for (const OptionText& option : command.given) text += option_row(option);
  std::string group = command.options.empty() ? "" : command.options.front().group;
  for (const OptionText& option : command.options) {
    if (option.group != group) text += ".SS " + escaped(option.group) + "\n";
    group = option.group;
    text += option_row(option);
  }
  return text;
}

std::string synopsis(const CommandText& command) {
  std::string text = ".SH SYNOPSIS\n" + bold("insideline " + command.name) + " [" + slanted("OPTIONS") + "]";
  for (const OptionText& option : command.options)
    if (option.required) text += " " + bold(option.names.back()) + " " + slanted(option.value);
  for (const OptionText& option : command.given) {
    const std::string name = slanted(option.value) + (option.repeated ? "..." : "");
    text += option.required ? " " + name : " [" + name + "]";
  }
  return text + "\n";
}

/// The help's footer: "Examples:", then commands indented by two blanks, each with words of its own below it, indented
/// by more; lines that are not indented are paragraphs.
struct Footer {
  std::string paragraphs;
  std::string examples;
};

Footer footer_parts(const std::string& footer) {
  Footer parts;
  std::istringstream lines(footer);
  for (std::string line; std::getline(lines, line);) {
    const std::size_t indent = std::min(line.find_first_not_of(' '), line.size());
    if (line.empty() || line == "Example:" || line == "Examples:") continue;
    const std::string_view words = std::string_view(line).substr(indent);
    if (indent == 0)
      parts.paragraphs += ".PP\n" + escaped(words) + "\n";
    else if (indent == 2)
      parts.examples += ".TP\n" + bold(words) + "\n";
    else
      parts.examples += escaped(words) + "\n";
  }
  if (!parts.examples.empty()) parts.examples = ".SH EXAMPLES\n" + parts.examples;
  return parts;
}

constexpr const char* how_it_ends =
    ".SH EXIT STATUS\n"
    ".TP\n\\fB0\\fR\nThe work is done.\n"
    ".TP\n\\fB1\\fR\nAn input cannot be used. The message names the file, the place in it and what to do; no "
    "half\\-written file is left behind.\n"
    ".TP\n\\fB2\\fR\nThe command line is wrong.\n"
    ".SH ENVIRONMENT\n"
    ".TP\n\\fBNO_COLOR\\fR\nIf it is set to anything, no colour is printed unless an option asks for it.\n";

}  // namespace

std::string program_page(const ProgramText& program, const std::string& version) {
  const Footer footer = footer_parts(program.itself.footer);
  std::string text = heading("insideline", program.itself.description, version);
  text += ".SH SYNOPSIS\n" + bold("insideline") + " " + slanted("COMMAND") + " [" + slanted("OPTIONS") + "] ...\n";
  text += ".SH DESCRIPTION\n" + escaped(program.itself.description) + "\n" + footer.paragraphs;
  text += ".SH COMMANDS\n";
  for (const CommandText& command : program.commands)
    text += ".TP\n" + bold(page_name(command)) + "(1)\n" + escaped(command.description) + "\n";
  text += option_rows(program.itself) + how_it_ends + footer.examples;
  text += ".SH SEE ALSO\n";
  for (const CommandText& command : program.commands)
    text += bold(page_name(command)) + (&command == &program.commands.back() ? "(1)\n" : "(1),\n");
  return text;
}

std::string command_page(const ProgramText& program, const CommandText& command, const std::string& version) {
  const Footer footer = footer_parts(command.footer);
  std::string text = heading(page_name(command), command.description, version) + synopsis(command);
  text += ".SH DESCRIPTION\n" + escaped(command.description) + ".\n" + footer.paragraphs;
  text += option_rows(command) + how_it_ends + footer.examples;
  text += ".SH SEE ALSO\n" + bold(program.itself.name) + "(1)\n";
  return text;
}

}  // namespace insideline::cli
