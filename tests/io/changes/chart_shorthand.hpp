// What a chart says, in one line for tests: "Dm7 | G7 2 C 2 | N.C." has a bar line between
// bars, and lengths in quarters where a bar has more than one chord or is not a whole bar of 4/4.
#pragma once

#include "analyzer/model/changes.hpp"

#include <string>
#include <string_view>

namespace insideline::tests {

std::string played(const Changes& changes);

/// The first line of the ReadError that parse_changes throws for `text` as "a.changes", without
/// the file's name: "3:5: bar 2 ...". A test failure where it throws nothing.
std::string chart_error(std::string_view text);

/// The whole error, with the source line and the caret.
std::string whole_chart_error(std::string_view text);

}  // namespace insideline::tests
