// --cell: a few tones of every chord, as they are typed.
#pragma once

#include "analyzer/drills/drill_settings.hpp"

#include <optional>
#include <string>

namespace insideline::cli {

/// "7 3 5", "1-2-3-5": two to eight tones, neighbours different. Where there is none, `problem` says why.
std::optional<DrillCell> parsed_cell(const std::string& text, std::string& problem);

/// What CLI11 asks of a check: empty where `text` is a cell, else what is wrong with it.
std::string not_a_cell(const std::string& text);

}  // namespace insideline::cli
