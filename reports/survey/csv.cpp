#include "analyzer/measures/figure_table.hpp"
#include "reports/csv_report.hpp"
#include "reports/survey/survey_report.hpp"

namespace insideline::reports {

std::string survey_csv(const std::vector<SurveyedSolo>& solos,
                       const std::vector<std::vector<std::string>>& values_by_figure) {
  std::vector<std::string> cells{"path", "folder", "player", "title", "bars", "notes"};
  for (const FigureRow& row : figure_rows()) cells.emplace_back(row.key);
  std::string text = csv_row(cells);
  for (std::size_t solo = 0; solo < solos.size(); ++solo) {
    const SurveyedSolo& one = solos[solo];
    cells = {not_a_formula(one.path),  not_a_formula(one.folder), not_a_formula(one.player),
             not_a_formula(one.title), std::to_string(one.bars),  std::to_string(one.notes)};
    for (const std::vector<std::string>& values : values_by_figure) cells.push_back(values[solo]);
    text += csv_row(cells);
  }
  return text;
}

}  // namespace insideline::reports
