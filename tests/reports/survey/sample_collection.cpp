#include "tests/reports/survey/sample_collection.hpp"

#include "analyzer/measures/figure_table.hpp"

#include <vector>

namespace insideline::tests {

reports::CollectionReport sample_collection() {
  reports::CollectionReport report;
  report.name = "solos.db";
  report.grouped_by = "player";
  report.size = 3;
  report.groups = 2;
  report.bars = 44;
  report.notes = 300;
  report.solos = {{"s/Al/a.mid", "s/Al", "Al", "A", 12, 100},
                  {"s/Bo/<b>.mid", "s/Bo", "Bo", "=1+1", 24, 150},
                  {"s/Bo/c, d.mid", "s/Bo", "Bo", "C", 8, 50}};
  const std::vector<std::string> players{"Al", "Bo", "Bo"};
  for (std::size_t row = 0; row < figure_rows().size(); ++row) {
    const std::vector<SoloValue> values{{0, 0.5}, {1, 0.75}, {2, 0.25}};
    report.figures.push_back(figure_overview(row, values, players));
    report.values.push_back(values);
  }
  report.figures.front().apart = {{1, 0.75}};
  report.cells = {{"3-5", 12, 3}};
  report.arpeggios = {{"3-5-b7", 4, 2}};
  return report;
}

}  // namespace insideline::tests
