// Days on the command line.
#pragma once

#include <string>

namespace insideline::cli {

/// What CLI11 asks of a check: empty for "2026-11-25" and any other day that the calendar has, else what is wrong.
std::string not_a_day(const std::string& text);

}  // namespace insideline::cli
