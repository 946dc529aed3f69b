#include "reports/comparison/comparison_report.hpp"
#include "reports/comparison/sentences.hpp"
#include "reports/text/canvas.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>

namespace insideline::reports {
namespace {

/// "A", "B" ... and numbers beyond the alphabet.
std::string letter(std::size_t solo) {
  constexpr std::size_t letters = 26;
  return solo < letters ? std::string(1, static_cast<char>('A' + solo)) : std::to_string(solo + 1);
}

/// A paragraph behind a mark of one character.
std::string item(const std::string& mark, const std::string& said) {
  constexpr std::size_t margin = 2;
  std::string text = paragraph(printable(said), margin + mark.size() + 1);
  return text.replace(margin, mark.size(), mark);
}

std::string source_text(const Source& source) {
  const std::string part = source.section.empty() ? "" : source.section + ", ";
  return part + (source.changes_file.starts_with("in ") ? "changes " : "over ") + source.changes_file;
}

std::string what_is_compared(const ComparisonReport& report, Colour colour) {
  std::string text = painted(printable(comparison_title(report)), Ink::title, colour) + "\n";
  const bool one_file = report.read.size() == 1;
  if (one_file)
    text += paragraph(printable(report.read.front().source.solo_file + ", " + source_text(report.read.front().source)));
  for (std::size_t i = 0; i < report.solos.size(); ++i) {
    const ComparedSolo& solo = report.solos[i];
    text += item(letter(i),
                 fmt::format("{}: {}, {}, {}{}", solo.name, counted(solo.bars, "bar"), counted(solo.notes, "note"),
                             counted(solo.changes, "change of chord", "changes of chord"),
                             one_file ? "" : " (" + source_text(report.read[i].source) + ")"));
  }
  return text;
}

std::string findings_text(const ComparisonReport& report, std::size_t other, Colour colour) {
  const Findings findings = findings_about(report, other);
  const std::string pair = fmt::format(", {} against {}", letter(other), letter(0));
  std::string text = painted("What is clearly different" + pair, Ink::title, colour) + "\n";
  for (const std::string& sentence : findings.clear) text += item("-", sentence);
  if (findings.clear.empty()) text += item("-", "None of the main figures.");
  if (!findings.clear_details.empty())
    text += item("-", fmt::format("In detail: {}.", fmt::join(findings.clear_details, "; ")));
  text += "\n" + painted("What is not" + pair, Ink::title, colour) + "\n";
  if (!findings.not_clear.empty()) text += item("-", "No clear difference in: " + listed(findings.not_clear) + ".");
  if (findings.details_not_clear > 0)
    text += item("-", fmt::format("Nor in {} of the table.", counted(findings.details_not_clear, "detail")));
  if (!findings.in_neither.empty()) text += item("-", "None in either: " + listed(findings.in_neither) + ".");
  if (!findings.too_few.empty()) text += item("-", "Too little to compare: " + listed(findings.too_few) + ".");
  return text;
}

constexpr std::size_t columns = 5;  // name, first, other, difference, interval
using Line = std::array<std::string, columns>;

Line line_of(const ComparisonReport& report, std::size_t other, std::size_t row) {
  const FigureRow& figure = figure_rows()[row];
  const auto value = [&](std::size_t solo) {
    const FigureValue& its = report.comparison.solos[solo].values[row];
    return its.value ? fmt::format("{} {:>7}", figure_text(figure, its), counts_text(its)) : std::string("-");
  };
  const FigureDifference& difference = report.comparison.solos[other].differences[row];
  const bool clear = difference.verdict == Verdict::more || difference.verdict == Verdict::less;
  return {figure.name, value(0), value(other),
          difference.difference ? difference_text(figure, *difference.difference) : "",
          difference.interval ? fmt::format("{} to {} {}", difference_text(figure, difference.interval->low),
                                            difference_text(figure, difference.interval->high), clear ? "*" : " ")
                              : "too few  "};
}

std::string table_text(const ComparisonReport& report, std::size_t other, Colour colour) {
  std::vector<std::pair<std::size_t, Line>> lines;
  std::array<std::size_t, columns> widths{};
  const Line head = {"", letter(0), letter(other), letter(other) + "-" + letter(0), "95 %  "};
  for (std::size_t i = 0; i < columns; ++i) widths.at(i) = head.at(i).size();
  for (std::size_t row = 0; row < figure_rows().size(); ++row) {
    const SoloComparison& side = report.comparison.solos[other];
    const bool counted_somewhere = report.comparison.solos.front().values[row].value || side.values[row].value;
    if (!counted_somewhere || side.differences[row].verdict == Verdict::in_neither) continue;
    lines.emplace_back(row, line_of(report, other, row));
    for (std::size_t i = 0; i < columns; ++i) widths.at(i) = std::max(widths.at(i), lines.back().second.at(i).size());
  }
  const auto printed = [&](const Line& line, Ink ink) {
    CanvasRow canvas;
    std::size_t column = 2;
    for (std::size_t i = 0; i < columns; ++i) {
      const std::size_t indent = i == 0 ? 0 : widths.at(i) - line.at(i).size();  // numbers to the right
      canvas.write(column + indent, line.at(i), ink);
      column += widths.at(i) + 1;
    }
    return canvas.text(colour) + "\n";
  };
  std::string text = painted(fmt::format("Every figure, {} against {}", letter(other), letter(0)), Ink::title, colour) +
                     "\n" + printed(head, Ink::faint);
  const FigureGroup* group = nullptr;
  for (const auto& [row, line] : lines) {
    const FigureRow& figure = figure_rows()[row];
    if (group == nullptr || *group != figure.group) text += painted(heading(figure.group), Ink::faint, colour) + "\n";
    group = &figure.group;
    const Verdict verdict = report.comparison.solos[other].differences[row].verdict;
    text += printed(line, verdict == Verdict::more || verdict == Verdict::less ? Ink::title : Ink::plain);
  }
  return text;
}

}  // namespace

std::string comparison_text(const ComparisonReport& report, Colour colour) {
  std::string text = what_is_compared(report, colour);
  for (std::size_t other = 1; other < report.solos.size(); ++other) text += "\n" + findings_text(report, other, colour);
  text += "\n" + painted("How sure is that?", Ink::title, colour) + "\n";
  text += paragraph(many_looks(report)) + paragraph(how_sure(report));
  for (const std::string& caution : report.comparison.cautions) text += item("-", caution + ".");
  for (std::size_t other = 1; other < report.solos.size(); ++other) text += "\n" + table_text(report, other, colour);
  text += "\n" + paragraph(
                     "Beside each value stands what it is of: 50/70 is 50 of 70. Differences of shares are in "
                     "points of percent. * clear: 0 lies outside of what the difference may be (95 %).");
  return text;
}

}  // namespace insideline::reports
