// --section: a part of the solo, as a musician names it.
#pragma once

#include "analyzer/section.hpp"

#include <optional>
#include <string>
#include <string_view>

namespace insideline::cli {

/// "9-16", "9", "chorus 2", "phrase 3"; anything else that is not begun as one of them is the name of a section, "B",
/// "last A". None for "9-", "16-9" and an empty text.
std::optional<Section> parsed_section(std::string_view text);

/// "bars 9 to 16", "bar 9", "chorus 2", "phrase 3", "section B".
std::string name_of(const Section& section);

/// Why `wanted` names no section of the solo: with the list of those it has.
std::string no_such_section(const std::string& wanted, const Harmony& harmony);

/// What CLI11 asks of a check: empty where `text` names a section, else what is wrong with it.
std::string not_a_section(const std::string& text);

}  // namespace insideline::cli
