// A database of solos as what the reports tell about it.
#pragma once

#include "analyzer/collection/solo_rows.hpp"
#include "io/database/collection.hpp"
#include "reports/survey/survey_report.hpp"

#include <cstdint>
#include <string>
#include <vector>

namespace insideline::cli {

enum class GroupBy : std::uint8_t { player, folder };

/// Every solo has its place in memory only where somebody asks for more than the main table.
enum class Detail : std::uint8_t { totals, solos, solos_with_values };

reports::CollectionReport collection_report(io::Collection& collection, const std::string& name, GroupBy group_by,
                                            Detail detail);

std::string collection_csv(io::Collection& collection);

/// Where a solo with these figures stands, main figures only.
std::vector<reports::FigureStanding> standings(io::Collection& collection, const std::vector<FigureEntry>& figures);

}  // namespace insideline::cli
