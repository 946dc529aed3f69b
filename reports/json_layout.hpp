// JSON as text that a person can read and `diff` can compare: each member of the
// document on a line of its own, each element of a list of objects likewise, and
// everything deeper on one line.
#pragma once

#include <nlohmann/json_fwd.hpp>
#include <string>

namespace insideline::reports {

/// Ends with a line feed. Bytes that are not UTF-8 become U+FFFD.
std::string laid_out(const nlohmann::ordered_json& document);

}  // namespace insideline::reports
