#include "reports/printed/line_plan.hpp"

#include "analyzer/model/sections.hpp"
#include "reports/printed/lilypond_text.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <iterator>
#include <vector>

namespace insideline::reports {
namespace {

constexpr std::size_t bars_in_a_line = 4;

using Line = std::span<const WrittenBar>;

std::size_t symbols_in(const WrittenBar& bar) {
  std::size_t count = bar.groups.empty() ? 1 : 0;
  for (const WrittenGroup& group : bar.groups) count += group.symbols.size();
  return count;
}

bool fits(Line line, std::size_t most_in_a_line) {
  std::size_t count = 0;
  for (const WrittenBar& bar : line) count += symbols_in(bar);
  return count <= most_in_a_line;
}

/// Groups of four full bars, counted anew from every chorus; a pickup belongs to the first.
std::vector<Line> groups_of_four(const Sheet& sheet, Line bars) {
  std::vector<Line> groups;
  std::size_t first = 0;
  std::size_t full_bars = 0;
  for (std::size_t index = 0; index < bars.size(); ++index) {
    const Bar& bar = sheet.report.solo.bars[bars[index].bar];
    const bool begins_chorus = index > 0 && bar.number > 1 && chorus_starting_at(sheet, bar) > 0;
    if (full_bars == bars_in_a_line || begins_chorus) {
      groups.push_back(bars.subspan(first, index - first));
      first = index;
      full_bars = 0;
    }
    if (bar.number > 0) ++full_bars;
  }
  groups.push_back(bars.subspan(first));
  return groups;
}

/// The group as one line, or its halves as lines, as far down as need be.
void add_lines(Line group, std::size_t most_in_a_line, std::vector<Line>& lines) {
  if (group.size() == 1 || fits(group, most_in_a_line)) return lines.push_back(group);
  const std::size_t half = (group.size() + 1) / 2;
  add_lines(group.first(half), most_in_a_line, lines);
  add_lines(group.subspan(half), most_in_a_line, lines);
}

/// The choruses, each of them a page, where that makes pages neither empty nor crowded.
std::set<std::size_t> pages_of(const Sheet& sheet, const std::vector<Line>& lines) {
  constexpr std::size_t one_page = 7;
  constexpr std::size_t fewest_on_a_page = 5;
  if (lines.size() <= one_page) return {};
  std::set<std::size_t> pages;
  std::size_t page_begin = 0;
  for (std::size_t line = 1; line <= lines.size(); ++line) {
    const bool ends_page =
        line == lines.size() || chorus_starting_at(sheet, sheet.report.solo.bars[lines[line].front().bar]) > 1;
    if (!ends_page) continue;
    if (line - page_begin < fewest_on_a_page || line - page_begin > one_page) return {};
    if (line < lines.size()) pages.insert(lines[line].front().bar);
    page_begin = line;
  }
  return pages;
}

}  // namespace

int chorus_starting_at(const Sheet& sheet, const Bar& bar) {
  const Harmony& harmony = sheet.report.analysis.harmony;
  if (harmony.choruses < 2 || harmony.chorus_length <= Beats(0) || bar.onset < harmony.first_chorus) return 0;
  const Beats since = bar.onset - harmony.first_chorus;
  if (remainder_within(since, harmony.chorus_length) != Beats(0)) return 0;
  return static_cast<int>(whole_units(since, harmony.chorus_length)) + 1;
}

std::vector<std::string> form_boxes(const Sheet& sheet, const Bar& bar, int chorus) {
  constexpr std::size_t widest_name = 24;
  const auto& sections = sheet.report.analysis.harmony.sections;
  std::vector<std::string> boxes;
  if (chorus > 0) boxes.push_back(fmt::format("\\chorus \"{}\" ", chorus));
  if (const auto section = section_beginning_at(sections, bar.onset))
    boxes.push_back(fmt::format("\\letter {} ", lilypond_string(fitted(sections[*section].name, widest_name))));
  return boxes;
}

std::string mark_text(std::span<const std::string> boxes) {
  if (boxes.empty()) return {};
  if (boxes.size() == 1) return "\\mark \\markup " + boxes.front();
  return fmt::format("\\mark \\markup \\concat {{ {}}} ", fmt::join(boxes, "\\hspace #0.6 "));
}

std::string form_text(const Sheet& sheet, const Bar& bar, bool is_first) {
  const bool double_bar = !is_first && has_double_bar(sheet.report.solo, sheet.report.analysis.harmony, bar.onset);
  return (double_bar ? "\\bar \"||\" " : "") + mark_text(form_boxes(sheet, bar, chorus_starting_at(sheet, bar)));
}

LinePlan line_plan(const Sheet& sheet, std::span<const WrittenBar> bars, std::size_t most_in_a_line) {
  std::vector<Line> lines;
  for (const Line group : groups_of_four(sheet, bars)) add_lines(group, most_in_a_line, lines);
  LinePlan plan;
  for (std::size_t line = 1; line < lines.size(); ++line) plan.starts.insert(lines[line].front().bar);
  plan.pages = pages_of(sheet, lines);
  const bool is_short = lines.size() > 1 && lines.back().size() < lines[lines.size() - 2].size();
  plan.last = is_short ? LastLine::short_of_bars : LastLine::full;
  return plan;
}

std::size_t line_of(const LinePlan& plan, std::size_t bar) {
  return static_cast<std::size_t>(std::distance(plan.starts.begin(), plan.starts.upper_bound(bar)));
}

}  // namespace insideline::reports
