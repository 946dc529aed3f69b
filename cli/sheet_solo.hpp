// The solo that a practice sheet follows: whose cells it takes over, or what it lacks.
#pragma once

#include "analyzer/drills/drill_settings.hpp"

#include <optional>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace insideline::cli {

class Destinations;

struct SheetSolo {
  std::optional<std::string> like;
  std::optional<std::string> gaps;
  std::optional<std::string> changes;     ///< what the solo was played over
  std::optional<std::string> collection;  ///< a database of a survey, for what is usual
};

/// `solo` must live as long as `command`.
void add_sheet_solo_options(CLI::App& command, SheetSolo& solo);

/// No file that is written may be the solo, its changes or the database.
void spare_sheet_solo(const SheetSolo& solo, const Destinations& destinations);

/// What the solo leads to, in words; `settings` are changed by it. Nothing without a solo. Throws io::ReadError.
std::vector<std::string> follow_solo(const SheetSolo& solo, DrillSettings& settings);

}  // namespace insideline::cli
