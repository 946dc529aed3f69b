// What a practice log says of its players: one over the term, or a line for each.
#pragma once

#include "analyzer/takes/practice_log.hpp"
#include "analyzer/takes/readiness.hpp"
#include "reports/text/ink.hpp"

#include <string>
#include <vector>

namespace insideline::reports {

struct PracticeLogReport {
  std::string log;                         ///< its file
  int bound = ReadyBounds{}.from_a_sheet;  ///< ready is fewer than one mistake in so many notes
  std::vector<PlayerProgress> players;     ///< not empty
};

/// One player sheet by sheet, take by take; of several a line each.
std::string practice_log_text(const PracticeLogReport& report, Colour colour);
/// A page with the table of the players, and for each of them plots and takes.
std::string practice_log_page(const PracticeLogReport& report);
/// Described by reports/practice_log.schema.json.
std::string practice_log_json(const PracticeLogReport& report);
/// One row a take.
std::string practice_log_csv(const PracticeLogReport& report);

}  // namespace insideline::reports
