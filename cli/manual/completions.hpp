// What a shell offers when the Tab key is pressed: commands, options, the words of an option, files.
// Each text is a whole file, to stand where the shell looks for the completions of `insideline`.
#pragma once

#include "cli/manual/program_text.hpp"

#include <string>

namespace insideline::cli {

std::string bash_completion(const ProgramText& program);
std::string zsh_completion(const ProgramText& program);
std::string fish_completion(const ProgramText& program);

}  // namespace insideline::cli
