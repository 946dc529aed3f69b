#include "cli/manual/completions.hpp"

#include <fmt/format.h>

#include <string_view>

namespace insideline::cli {
namespace {

std::string joined(const std::vector<std::string>& words, std::string_view between) {
  std::string text;
  for (const std::string& word : words) text += (text.empty() ? "" : std::string(between)) + word;
  return text;
}

std::string replaced(std::string text, std::string_view what, std::string_view by) {
  for (std::size_t at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size()))
    text.replace(at, what.size(), by);
  return text;
}

std::vector<std::string> names_of(const std::vector<OptionText>& options) {
  std::vector<std::string> names;
  for (const OptionText& option : options) names.insert(names.end(), option.names.begin(), option.names.end());
  return names;
}

std::vector<std::string> names_of(const std::vector<CommandText>& commands) {
  std::vector<std::string> names;
  for (const CommandText& command : commands) names.push_back(command.name);
  return names;
}

/// What is given without a name; the last of them stands for those after it.
Offer offer_without_name(const CommandText& command) {
  return command.given.empty() ? Offer::nothing : command.given.back().offer;
}

std::string bash_offer(Offer offer, const std::vector<std::string>& words) {
  switch (offer) {
    case Offer::nothing: return "return";
    case Offer::words: return fmt::format("_insideline_offer -W '{}'", joined(words, " "));
    case Offer::files: return "compopt -o filenames 2>/dev/null; _insideline_offer -f";
    case Offer::folders: return "compopt -o filenames 2>/dev/null; _insideline_offer -d";
  }
  return {};
}

std::string bash_values(const CommandText& command) {
  std::string rows;
  for (const OptionText& option : command.options) {
    if (option.value.empty()) continue;
    std::vector<std::string> patterns;
    for (const std::string& name : option.names) patterns.push_back(command.name + ":" + name);
    rows += fmt::format("    {}) {}; return ;;\n", joined(patterns, "|"), bash_offer(option.offer, option.words));
  }
  return rows;
}

std::string zsh_quoted(std::string_view text) { return "'" + replaced(std::string(text), "'", "'\\''") + "'"; }

/// Inside the brackets of an `_arguments` row, or between its colons.
std::string zsh_words(std::string text) {
  for (const char* special : {"\\", "[", "]", ":"}) text = replaced(text, special, "\\" + std::string(special));
  return text;
}

std::string zsh_value(const OptionText& option) {
  const std::string message = ":" + zsh_words(option.value) + ":";
  switch (option.offer) {
    case Offer::nothing: return message + " ";
    case Offer::words: return message + "(" + joined(option.words, " ") + ")";
    case Offer::files: return message + "_files";
    case Offer::folders: return message + "_files -/";
  }
  return {};
}

std::string zsh_rows(const std::vector<OptionText>& options, std::string_view indent) {
  std::string rows;
  for (const OptionText& option : options) {
    for (const std::string& name : option.names) {
      const bool is_long = name.starts_with("--");
      const std::string rest =
          option.value.empty() ? "" : (is_long ? "=" : "+");  // the value may follow in the same word
      const std::string value = option.value.empty() ? "" : zsh_value(option);
      rows += fmt::format("{}{} \\\n", indent,
                          zsh_quoted(fmt::format("({}){}{}[{}]{}", joined(option.names, " "), name, rest,
                                                 zsh_words(option.description), value)));
    }
    if (option.names.empty())
      rows += fmt::format("{}{} \\\n", indent, zsh_quoted((option.repeated ? "*" : "") + zsh_value(option)));
  }
  return rows;
}

std::string fish_quoted(std::string text) {
  return "'" + replaced(replaced(std::move(text), "\\", "\\\\"), "'", "\\'") + "'";
}

std::string fish_offer(Offer offer, const std::vector<std::string>& words) {
  switch (offer) {
    case Offer::nothing: return " -x";
    case Offer::words: return fmt::format(" -x -a '{}'", joined(words, " "));
    case Offer::files: return " -r -F";
    case Offer::folders: return " -x -a '(__fish_complete_directories)'";
  }
  return {};
}

std::string fish_row(const std::string& condition, const OptionText& option) {
  std::string names;
  for (const std::string& name : option.names)
    names += name.starts_with("--") ? " -l " + name.substr(2) : " -s " + name.substr(1);
  return fmt::format("complete -c insideline -n {}{}{} -d {}\n", fish_quoted(condition), names,
                     option.value.empty() ? "" : fish_offer(option.offer, option.words),
                     fish_quoted(option.description));
}

std::string fish_without_name(const std::string& condition, Offer offer) {
  switch (offer) {
    case Offer::nothing:
    case Offer::words: return {};
    case Offer::files: return fmt::format("complete -c insideline -n {} -F\n", fish_quoted(condition));
    case Offer::folders:
      return fmt::format("complete -c insideline -n {} -a '(__fish_complete_directories)'\n", fish_quoted(condition));
  }
  return {};
}

}  // namespace

std::string bash_completion(const ProgramText& program) {
  std::string values;
  std::string options;
  std::string others;
  for (const CommandText& command : program.commands) {
    values += bash_values(command);
    options +=
        fmt::format("      {}) _insideline_offer -W '{}' ;;\n", command.name, joined(names_of(command.options), " "));
    others += fmt::format("    {}) {} ;;\n", command.name, bash_offer(offer_without_name(command), {}));
  }
  return fmt::format(R"(# bash completion for insideline

_insideline_offer() {{ mapfile -t COMPREPLY < <(compgen "$@" -- "$word"); }}

_insideline() {{
  local word=${{COMP_WORDS[COMP_CWORD]}} before=${{COMP_WORDS[COMP_CWORD - 1]}} command=${{COMP_WORDS[1]}}
  COMPREPLY=()
  if ((COMP_CWORD == 1)); then
    _insideline_offer -W '{} {}'
    return
  fi
  # --name=value comes as three words.
  if [[ $word == "=" ]]; then
    word=
  elif [[ $before == "=" ]]; then
    before=${{COMP_WORDS[COMP_CWORD - 2]}}
  fi
  case $command:$before in
{}  esac
  if [[ $word == -* ]]; then
    case $command in
{}    esac
    return
  fi
  case $command in
{}  esac
}}
complete -F _insideline insideline
)",
                     joined(names_of(program.commands), " "), joined(names_of(program.itself.options), " "), values,
                     options, others);
}

std::string zsh_completion(const ProgramText& program) {
  std::string commands;
  std::string arguments;
  for (const CommandText& command : program.commands) {
    commands += fmt::format("        {}\n", zsh_quoted(command.name + ":" + zsh_words(command.description)));
    arguments +=
        fmt::format("        {})\n          _arguments \\\n{}{}            && ret=0\n          ;;\n", command.name,
                    zsh_rows(command.options, "            "), zsh_rows(command.given, "            "));
  }
  return fmt::format(R"(#compdef insideline

_insideline() {{
  local curcontext=$curcontext state line ret=1
  _arguments -C \
{}    '1:COMMAND:->command' \
    '*::ARGUMENT:->argument' \
    && ret=0
  case $state in
    command)
      local -a commands=(
{}      )
      _describe command commands && ret=0
      ;;
    argument)
      case $line[1] in
{}      esac
      ;;
  esac
  return ret
}}

_insideline "$@"
)",
                     zsh_rows(program.itself.options, "    "), commands, arguments);
}

std::string fish_completion(const ProgramText& program) {
  const std::string first = "__fish_use_subcommand";
  std::string rows = "# fish completion for insideline\n\ncomplete -c insideline -f\n";
  for (const OptionText& option : program.itself.options) rows += fish_row(first, option);
  for (const CommandText& command : program.commands)
    rows += fmt::format("complete -c insideline -n {} -a {} -d {}\n", first, command.name,
                        fish_quoted(command.description));
  for (const CommandText& command : program.commands) {
    const std::string condition = "__fish_seen_subcommand_from " + command.name;
    rows += "\n" + fish_without_name(condition, offer_without_name(command));
    for (const OptionText& option : command.options) rows += fish_row(condition, option);
  }
  return rows;
}

}  // namespace insideline::cli
