// Solos side by side, for the terminal, for other programs and for the screen.
#pragma once

#include "analyzer/measures/comparison.hpp"
#include "reports/report.hpp"
#include "reports/text/ink.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace insideline::reports {

/// What is compared, which decides how the sentences speak.
enum class Occasion : std::uint8_t {
  solos,         ///< different solos, the first of them the measure
  before_after,  ///< two takes of one player
  choruses,      ///< the choruses of one solo, or a section in each of them
  sections       ///< the lettered sections of one solo, all of a name together
};

struct ComparisonReport {
  Occasion occasion = Occasion::solos;
  std::vector<Report> read;         ///< one a file; a single one for choruses and sections
  std::vector<ComparedSolo> solos;  ///< at least two
  ComparisonSettings settings;
  Comparison comparison;              ///< of `solos`
  std::vector<std::string> warnings;  ///< of all files
};

/// Sentences first, then every figure in columns.
std::string comparison_text(const ComparisonReport& report, Colour colour);

/// Described by reports/comparison.schema.json.
std::string comparison_json(const ComparisonReport& report);

/// A self-contained page.
std::string comparison_page(const ComparisonReport& report);

}  // namespace insideline::reports
