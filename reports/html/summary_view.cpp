#include "reports/html/summary_view.hpp"

#include "reports/text/remarks.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

namespace insideline::reports {
namespace {

std::string_view fill_class(Role role) {
  switch (role) {
    case Role::chord_tone: return "part-c";
    case Role::tension: return "part-t";
    case Role::non_chord_tone: return "part-n";
    case Role::outside: return "part-o";
    case Role::no_chord: return "track";
  }
  return "track";
}

Markup gauge_of(const CountRow& row) {
  const double width = row.share.of > 0 ? 100.0 * row.share.count / row.share.of : 0.0;
  return element("svg", {{"class", "gauge"}, {"width", "100%"}, {"height", "12"}, {"aria-hidden", "true"}},
                 shape("rect", {{"width", drawn(width) + "%"},
                                {"height", "12"},
                                {"class", row.role ? std::string(fill_class(*row.role)) : "series-2"}}));
}

Markup row_of(const CountRow& row) {
  Markup cells = element("th", {{"scope", "row"}}, row.name);
  const std::string of = row.role ? fmt::format(" of {}", row.share.of) : "";
  cells += element("td", {{"class", "number"}}, std::to_string(row.share.count) + of);
  if (row.role) cells += element("td", {{"class", "number"}}, percent(ratio(row.share).value_or(0.0)));
  if (row.beside.empty())
    cells += element("td", {{"class", "wide"}}, gauge_of(row));
  else
    cells += element("td", row.beside);
  return element("tr", cells);
}

/// "Bar 2: ..." with a link to the note where it begins.
Markup link_to(const Report& report, std::size_t bar) {
  const Beats onset = report.solo.bars[bar].onset;
  const Beats end = onset + report.solo.bars[bar].length;
  for (std::size_t i = 0; i < report.solo.notes.size(); ++i)
    if (report.solo.notes[i].onset >= onset && report.solo.notes[i].onset < end)
      return element("p", element("a", {{"href", fmt::format("#n{}", i)}, {"class", "to-note"}},
                                  fmt::format("Show bar {} on the line map", report.solo.bars[bar].number)));
  return {};
}

Markup section_view(const RemarkSection& section, const Report& report) {
  Markup content = element("h3", section.title);
  Markup rows;
  const auto close_table = [&] {
    if (!rows.empty()) content += element("table", element("tbody", rows));
    rows = {};
  };
  for (const Remark& remark : section.remarks) {
    if (const auto* row = std::get_if<CountRow>(&remark)) {
      rows += row_of(*row);
      continue;
    }
    close_table();
    if (const auto* sentences = std::get_if<Sentences>(&remark)) content += element("p", *sentences);
    if (const auto* bar = std::get_if<ShownBar>(&remark)) content += link_to(report, bar->first);
  }
  close_table();
  return element("div", {{"class", "remarks"}}, content);
}

}  // namespace

Markup summary_view(const Report& report) {
  Markup view;
  for (const RemarkSection& section : summary_sections(report)) view += section_view(section, report);
  return element("div", {{"class", "summary"}}, view);
}

Markup what_was_read_view(const Report& report) {
  Markup view;
  for (const Remark& remark : what_was_read(report).remarks)
    if (const auto* sentences = std::get_if<Sentences>(&remark)) view += element("p", *sentences);
  return view;
}

}  // namespace insideline::reports
