// What the scripts of the page know of the solo: notes, chords and bars as a compact JSON text, each word and
// sentence once. the scripts of the page read it.
#pragma once

#include "reports/report.hpp"

#include <string>

namespace insideline::reports {

std::string map_data(const Report& report);

}  // namespace insideline::reports
