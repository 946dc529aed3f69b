#include "cli/help_format.hpp"

#include <sstream>

namespace insideline::cli {
namespace {

constexpr std::size_t page_width = 80;
constexpr std::size_t name_column = 28;

/// CLI11 indents the line after each line feed of a description.
std::string wrapped(const std::string& description) {
  std::string text;
  std::size_t used = 0;
  std::istringstream words(description);
  for (std::string word; words >> word;) {
    const bool fits = used + 1 + word.size() <= page_width - name_column;
    if (used > 0) text += fits ? ' ' : '\n';
    used = used > 0 && fits ? used + 1 + word.size() : word.size();
    text += word;
  }
  return text;
}

}  // namespace

HelpFormat::HelpFormat() {
  column_width(name_column);
  label("SUBCOMMAND", "COMMAND");
  label("SUBCOMMANDS", "COMMAND");
  label("Subcommands", "Commands");
  label("Positionals", "Given");
}

std::string HelpFormat::make_option_opts(const CLI::Option* option) const {
  return option->get_option_text().empty() ? std::string{} : " " + option->get_option_text();
}

std::string HelpFormat::make_option_desc(const CLI::Option* option) const { return wrapped(option->get_description()); }

std::string HelpFormat::make_subcommand(const CLI::App* command) const {
  std::stringstream out;
  CLI::detail::format_help(out, command->get_name(), wrapped(command->get_description()), column_width_);
  return out.str();
}

}  // namespace insideline::cli
