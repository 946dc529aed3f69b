#include "reports/text/remarks.hpp"

#include "reports/text/bars_view.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/marks.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <span>
#include <string_view>
#include <utility>

namespace insideline::reports {
namespace {

constexpr std::size_t name_width = 18;

std::string_view fill_of(Role role) {
  switch (role) {
    case Role::chord_tone: return "█";
    case Role::tension: return "▓";
    case Role::non_chord_tone: return "▒";
    case Role::outside: return "░";
    case Role::no_chord: return "·";
  }
  return "·";
}

/// "  tensions          ▒▒▒▒▒▒▒▒          28 of 140     20 %"
std::string density_line(const CountRow& row, Role role, Colour colour) {
  constexpr std::size_t width = 34;
  const std::string columns = gauge(row.share.count, row.share.of, fill_of(role), width);
  const std::string spaces(width - display_width(columns), ' ');
  return fmt::format("  {}{}{} {:>5} of {:<5} {:>9}\n", padded_right(row.name, name_width),
                     painted(columns, ink_of(role), colour), spaces, row.share.count, row.share.of,
                     percent(ratio(row.share).value_or(0.0)));
}

std::string count_line(const CountRow& row, Colour colour) {
  if (row.role) return density_line(row, *row.role, colour);
  constexpr std::size_t width = 24;
  const std::string beside = row.beside.empty() ? gauge(row.share.count, row.share.of, "█", width) : row.beside;
  const std::string head = fmt::format("  {}{:>5}   ", padded_right(row.name, name_width), row.share.count);
  if (display_width(head) + display_width(beside) <= page_width) return head + beside + "\n";
  return head + paragraph(beside, display_width(head)).substr(display_width(head));
}

}  // namespace

RemarkSection cautions(const Report& report) {
  RemarkSection section{"Before you rely on this", {}};
  for (const std::string& warning : report.analysis.warnings) section.remarks.emplace_back("- " + printable(warning));
  return section;
}

std::vector<RemarkSection> summary_sections(const Report& report, Length length) {
  using Maker = RemarkSection (*)(const Report& report);
  using LongMaker = RemarkSection (*)(const Report& report, Length length);
  using AnyMaker = std::variant<Maker, LongMaker>;
  constexpr AnyMaker first_page[] = {
      chord_tone_remarks, chance_in_brief, arpeggio_remarks, connection_remarks,  guide_tone_remarks,
      other_note_remarks, pattern_remarks, time_remarks,     telling_bar_remarks, cautions,
  };
  constexpr AnyMaker whole[] = {
      chord_tone_remarks,
      group_remarks,
      chance_remarks,
      arpeggio_remarks,
      arpeggio_shape_remarks,
      cell_remarks,
      pattern_remarks,
      connection_remarks,
      thread_remarks,
      guide_tone_remarks,
      other_note_remarks,
      early_and_late_remarks,
      time_remarks,
      section_remarks,
      phrase_remarks,
      telling_bar_remarks,
      cautions,
  };
  const std::span<const AnyMaker> makers = length == Length::whole ? std::span<const AnyMaker>(whole) : first_page;
  std::vector<RemarkSection> sections;
  for (const AnyMaker& make : makers) {
    const auto* const with_length = std::get_if<LongMaker>(&make);
    RemarkSection section = with_length != nullptr ? (*with_length)(report, length) : std::get<Maker>(make)(report);
    if (!section.remarks.empty()) sections.push_back(std::move(section));
  }
  return sections;
}

std::string shown(const ShownBar& bar, const Report& report, Colour colour) {
  std::vector<std::size_t> bars{bar.first};
  if (bar.last != bar.first) bars.push_back(bar.last);
  return bars_view(report, bars, colour);
}

std::string said(const RemarkSection& section, const Report& report, Colour colour) {
  std::string text = painted(section.title, Ink::title, colour) + "\n";
  for (const Remark& remark : section.remarks) {
    if (const auto* sentences = std::get_if<Sentences>(&remark)) text += paragraph(*sentences);
    if (const auto* row = std::get_if<CountRow>(&remark)) text += count_line(*row, colour);
    if (const auto* bar = std::get_if<ShownBar>(&remark)) text += shown(*bar, report, colour);
  }
  if (!section.remarks.empty() && std::holds_alternative<ShownBar>(section.remarks.back()))
    text.pop_back();  // the empty line after the last group
  return text;
}

}  // namespace insideline::reports
