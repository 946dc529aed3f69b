#include "reports/text_report.hpp"

#include "reports/text/bars_view.hpp"
#include "reports/text/marks.hpp"
#include "reports/text/remarks.hpp"

#include <cassert>
#include <numeric>
#include <vector>

namespace insideline::reports {
namespace {

std::string every_bar(const Report& report, Colour colour) {
  std::vector<std::size_t> bars(report.solo.bars.size());
  std::iota(bars.begin(), bars.end(), std::size_t{0});
  std::string view = bars_view(report, bars, colour);
  view.pop_back();  // the empty line after the last group
  return painted("Bar by bar", Ink::title, colour) + "\n" + view;
}

}  // namespace

std::string text_report(const Report& report, const TextOptions& options) {
  assert((options.length == Length::first_page || report.analysis.detail >= Detail::figures) &&
         "all that is told was asked for");
  std::string text = said(what_was_read(report), report, options.colour);
  if (options.bar_by_bar == BarByBar::shown) text += "\n" + every_bar(report, options.colour);
  for (const RemarkSection& section : summary_sections(report, options.length))
    text += "\n" + said(section, report, options.colour);
  const bool signs_used = options.bar_by_bar == BarByBar::shown || !report.analysis.telling_bars.empty();
  return signs_used ? text + "\n" + legend(options.colour) : text;
}

}  // namespace insideline::reports
