// The page of --html with the engraved score in it.
#pragma once

#include "reports/report.hpp"

#include <string>

namespace insideline::cli {

/// Throws EngravingError where LilyPond does not do its part. Tells a terminal how far it is.
std::string page_with_score(const reports::Report& report);

}  // namespace insideline::cli
