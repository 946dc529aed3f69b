#include "cli/manual/program_text.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <array>
#include <string_view>

namespace insideline::cli {
namespace {

std::vector<std::string> parted(std::string_view text, char separator) {
  std::vector<std::string> parts;
  while (true) {
    const std::size_t end = std::min(text.find(separator), text.size());
    parts.emplace_back(text.substr(0, end));
    if (end == text.size()) return parts;
    text.remove_prefix(end + 1);
  }
}

/// The words of a list to choose from, which CLI11 describes as "TEXT:{up,down}".
std::vector<std::string> words_of(const CLI::Option& option) {
  const std::string type = option.get_type_name();
  const std::size_t open = type.find('{');
  const std::size_t close = type.find('}', open);
  if (open == std::string::npos || close == std::string::npos) return {};
  return parted(std::string_view(type).substr(open + 1, close - open - 1), ',');
}

/// By what the help calls the value.
Offer offer_for(const OptionText& option) {
  constexpr std::array files = {"FILE", "FILE.pdf", "SOLO", "TAKE", "SHEET", "DB"};
  if (!option.words.empty()) return Offer::words;
  if (option.value == "FOLDER") return Offer::folders;
  return std::ranges::find(files, option.value) != files.end() ? Offer::files : Offer::nothing;
}

OptionText option_text(const CLI::Option& option) {
  OptionText text;
  for (const std::string& name : option.get_snames()) text.names.push_back("-" + name);
  for (const std::string& name : option.get_lnames()) text.names.push_back("--" + name);
  const bool named = !text.names.empty();
  text.value = named ? option.get_option_text() : option.get_name(true);
  text.description = option.get_description();
  text.group = option.get_group();
  text.required = option.get_required();
  text.repeated = option.get_items_expected_max() > 1;
  text.words = words_of(option);
  text.offer = offer_for(text);
  return text;
}

/// Groups in the order in which their first options were added.
void put_groups_together(std::vector<OptionText>& options) {
  std::vector<std::string> groups;
  for (const OptionText& option : options)
    if (std::ranges::find(groups, option.group) == groups.end()) groups.push_back(option.group);
  std::ranges::stable_sort(options, {}, [&groups](const OptionText& option) {
    return std::ranges::find(groups, option.group) - groups.begin();
  });
}

CommandText command_text(const CLI::App& command) {
  CommandText text{command.get_name(), command.get_description(), {}, {}, command.get_footer()};
  for (const CLI::Option* option : command.get_options()) {
    OptionText row = option_text(*option);
    (row.names.empty() ? text.given : text.options).push_back(std::move(row));
  }
  put_groups_together(text.options);
  return text;
}

}  // namespace

ProgramText text_of(const CLI::App& program) {
  ProgramText text{command_text(program), {}};
  for (const CLI::App* command : program.get_subcommands([](const CLI::App*) { return true; }))
    text.commands.push_back(command_text(*command));
  return text;
}

}  // namespace insideline::cli
