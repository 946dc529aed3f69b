// Decimal numbers of at most six places, as our files have them.
#pragma once

#include <cstdint>
#include <string>

namespace insideline::reports {

/// Adds no place that is nothing: "1.5", "0.333333", "4", "-0.25".
void append_millionths(std::string& text, std::int64_t millionths);

/// Likewise, rounded to six places.
void append_decimal(std::string& text, double value);

}  // namespace insideline::reports
