#include "tests/reports/comparison/sample_comparison.hpp"

#include "tests/reports/sample_report.hpp"

#include <stdexcept>

namespace insideline::tests {

BarSeries sixteen_bars(const std::vector<double>& parts) {
  BarSeries bars;
  for (std::size_t i = 0; i < 16; ++i) bars.push_back({.part = parts[i % parts.size()], .whole = 5});
  return bars;
}

reports::ComparisonReport sample_comparison(const std::vector<NamedBars>& solos, reports::Occasion occasion) {
  reports::ComparisonReport report;
  report.occasion = occasion;
  report.settings.resamples = 200;
  for (const auto& [name, bars] : solos) {
    ComparedSolo solo{.name = name, .bars = 3, .notes = 80, .changes = 16, .figures = {}};
    solo.figures.assign(figure_rows().size(), bars);
    report.solos.push_back(solo);
    if (occasion != reports::Occasion::choruses || report.read.empty()) report.read.push_back(sample_report());
  }
  report.comparison = compare(report.solos, report.settings);
  return report;
}

std::size_t figure_index(const std::string& key) {
  for (std::size_t i = 0; i < figure_rows().size(); ++i)
    if (figure_rows()[i].key == key) return i;
  throw std::out_of_range(key);
}

}  // namespace insideline::tests
