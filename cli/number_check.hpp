// Numbers on the command line.
#pragma once

#include <string>

namespace insideline::cli {

/// What CLI11 asks of a check: empty for a number from `lowest` to `highest`, else what is wrong. CLI::Range lets "nan"
/// through, which is neither below nor above anything.
std::string not_between(const std::string& text, double lowest, double highest);

}  // namespace insideline::cli
