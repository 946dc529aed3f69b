// What is said to a terminal alone: colour, and how far the work is.
#pragma once

#include "reports/text/ink.hpp"

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>

namespace CLI {
class App;
}

namespace insideline::cli {

enum class ColourChoice : std::uint8_t { automatic, always, never };

/// Automatic is colour on a terminal, unless NO_COLOR is set to anything or TERM is "dumb".
reports::Colour colour_of_standard_output(ColourChoice choice);

/// --color, in either spelling. `colour` must live as long as `command`.
void add_colour_option(CLI::App& command, ColourChoice& colour, const std::string& group);

/// "engraving: 2 of 8" on standard error, over the line before, and gone when all is done. Says nothing to a file.
void show_progress(std::string_view what, std::size_t done, std::size_t of);
/// "survey: files found: 1200", while nobody knows how many it will be.
void show_count(std::string_view what, std::size_t count);

}  // namespace insideline::cli
