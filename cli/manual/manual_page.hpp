// Pages of section 1 of the manual, in the `man` macros of troff.
// Source: groff_man(7) and man-pages(7): the order and the names of the sections.
#pragma once

#include "cli/manual/program_text.hpp"

#include <string>

namespace insideline::cli {

/// insideline(1): what the program does, its commands, how it ends.
std::string program_page(const ProgramText& program, const std::string& version);

/// insideline-COMMAND(1).
std::string command_page(const ProgramText& program, const CommandText& command, const std::string& version);

}  // namespace insideline::cli
