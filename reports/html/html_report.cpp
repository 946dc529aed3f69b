#include "reports/html/html_report.hpp"

#include "reports/html/engraved_view.hpp"
#include "reports/html/line_map.hpp"
#include "reports/html/map_data.hpp"
#include "reports/html/page.hpp"
#include "reports/html/solo_plots.hpp"
#include "reports/html/summary_view.hpp"
#include "reports/text/remarks.hpp"

#include <cassert>

namespace insideline::reports {
namespace {

/// Filled by remarks.js.
Markup remarks_on_bars() { return element("div", {{"id", "bar-remarks"}, {"class", "bar-remarks"}}, ""); }

/// Filled by player.js, which knows whether the browser can sound anything.
Markup player() {
  return element("div", {{"id", "player"}, {"class", "player"}},
                 element("noscript", element("p", "Listening needs a browser that runs the page's own script.")));
}

}  // namespace

std::string html_report(const Report& report) { return html_report(report, {}); }

std::string html_report(const Report& report, std::span<const std::string> engraved) {
  assert(report.analysis.detail == Detail::reasons && "all that is shown was asked for");
  Page page;
  page.title = title_of(report);
  page.under_title = what_was_read_view(report);
  page.styles = {line_map_style, player_style, stand_style};
  page.scripts = {address_script, rows_script,   line_map_script, schedule_script, sound_script,
                  loop_script,    player_script, ask_script,      remarks_script};
  page.main = section("summary", "In words", summary_view(report));
  if (!report.solo.notes.empty()) {
    page.main += section("line-map", "The line over the changes",
                         line_map(report, lay_out_map(report)) + remarks_on_bars() + player());
    page.data = map_data(report);
  }
  const Markup score = engraved_view(engraved);
  if (!score.empty()) page.main += section("engraved", "On the page", score);
  const Markup plots = solo_plots(report);
  if (!plots.empty()) page.main += section("plots", "In figures", plots);
  return whole_page(page);
}

}  // namespace insideline::reports
