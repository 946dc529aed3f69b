#include "reports/text_report.hpp"

#include "reports/text/bars_view.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/marks.hpp"
#include "reports/text/remarks.hpp"
#include "reports/text/wording.hpp"

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

std::string cautions(const Report& report, Colour colour) {
  if (report.analysis.warnings.empty()) return {};
  std::string text = painted("Before you rely on this", Ink::title, colour) + "\n";
  for (const std::string& warning : report.analysis.warnings) text += paragraph("- " + printable(warning));
  return text;
}

using Section = std::string (*)(const Report& report, Colour colour);

constexpr Section sections[] = {
    chord_tone_remarks, chance_remarks,         arpeggio_remarks,    crossing_remarks, guide_tone_remarks,
    other_note_remarks, early_and_late_remarks, telling_bar_remarks, cautions,
};

}  // namespace

std::string text_report(const Report& report, const TextOptions& options) {
  std::string text = what_was_read(report, options.colour);
  if (options.bar_by_bar == BarByBar::shown) text += "\n" + every_bar(report, options.colour);
  for (const Section section : sections) {
    const std::string said = section(report, options.colour);
    if (!said.empty()) text += "\n" + said;
  }
  const bool signs_used = options.bar_by_bar == BarByBar::shown || !report.analysis.telling_bars.empty();
  return signs_used ? text + "\n" + legend(options.colour) : text;
}

}  // namespace insideline::reports
