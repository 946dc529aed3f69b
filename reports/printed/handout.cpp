#include "reports/printed/handout.hpp"

#include "analyzer/notation/rhythm_writing.hpp"
#include "reports/printed/closing_summary.hpp"
#include "reports/printed/lilypond_text.hpp"
#include "reports/printed/line_plan.hpp"
#include "reports/printed/marks.hpp"
#include "reports/printed/prelude.hpp"
#include "reports/printed/staff_music.hpp"
#include "reports/printed/text_rows.hpp"
#include "reports/printed/worksheet_tasks.hpp"
#include "reports/reading_words.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>
#include <cstddef>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace insideline::reports {
namespace {

constexpr std::size_t longest_handout_title = 80;  // columns
constexpr std::size_t longest_running = 50;        // in the head of the pages after the first
constexpr std::size_t longest_part = 40;

std::string_view paper_name(Paper paper) { return paper == Paper::a4 ? "a4" : "letter"; }

std::string_view sheet_symbol(SheetKind kind) {
  switch (kind) {
    case SheetKind::annotated: return "annotated";
    case SheetKind::worksheet: return "worksheet";
    case SheetKind::key: return "key";
  }
  return "annotated";
}

std::string_view sheet_name(SheetKind kind) {
  switch (kind) {
    case SheetKind::annotated: return "The line and its chords";
    case SheetKind::worksheet: return "Worksheet";
    case SheetKind::key: return "Answers to the worksheet";
  }
  return "";
}

/// LilyPond's size steps; a longer title is set smaller.
int title_size(const std::string& title) {
  const std::size_t width = display_width(title);
  constexpr std::size_t short_title = 32;
  constexpr std::size_t middling_title = 56;
  return width <= short_title ? 5 : width <= middling_title ? 3 : 1;
}

/// So that a last page has more than a lone line; a sheet that fits on one page may have as few as there are.
int fewest_systems(const LinePlan& plan) {
  constexpr std::size_t perhaps_several_pages = 6;
  return plan.pages.empty() && plan.starts.size() + 1 >= perhaps_several_pages ? 2 : 1;
}

std::string title_of(const Report& report) {
  std::string title = fitted(report.solo.title, longest_handout_title);
  if (!title.empty()) return title;
  return fitted(report.source.changes_title.empty() ? "Solo" : report.source.changes_title, longest_handout_title);
}

/// "Tenor Sax, in written pitch; bars 9 to 16".
std::string description(const Sheet& sheet) {
  const Solo& solo = sheet.report.solo;
  std::string text = reader_in_short(sheet.report, fitted(solo.part, longest_part));
  if (!sheet.report.source.section.empty()) {
    constexpr std::size_t longest_section = 50;
    if (!text.empty()) text += "; ";
    text += fitted(sheet.report.source.section, longest_section);
  }
  if (!sheet.options.bars) return text;
  const int first = solo.bars[sheet.excerpt.first_bar].number;
  const int last = solo.bars[sheet.excerpt.last_bar].number;
  if (!text.empty()) text += "; ";
  return text + (first == last ? fmt::format("bar {}", first) : fmt::format("bars {} to {}", first, last));
}

std::string header(const Sheet& sheet) {
  const std::string title = title_of(sheet.report);
  const std::string name(sheet_name(sheet.options.kind));
  return fmt::format(
      "\\header {{\n  title = {}\n  running = {}\n  sheetname = {}\n  described = {}\n  tagline = ##f\n}}\n",
      lilypond_string(title), lilypond_string(fitted(title, longest_running)), lilypond_string(name),
      lilypond_string(description(sheet)));
}

std::string section(std::string_view name, const std::vector<std::string>& paragraphs) {
  std::string text = fmt::format("\\markup \\section {} {{\n", lilypond_string(name));
  for (const std::string& paragraph : paragraphs) text += fmt::format("  \\paragraph {}\n", lilypond_string(paragraph));
  return text + "}\n";
}

/// Above the music: what a pupil is to do.
std::string tasks_text(const std::vector<Task>& tasks) {
  std::vector<std::string> lines;
  for (const Task& task : tasks) lines.push_back(fmt::format("{}.  {}", lines.size() + 1, task.instruction));
  return lines.empty() ? "" : section("Tasks", lines);
}

/// Below the music of the key.
std::string answers_text(const std::vector<Task>& tasks) {
  std::vector<std::string> lines;
  for (const Task& task : tasks)
    lines.push_back(fmt::format("{}.  {}", lines.size() + 1, task.answer.empty() ? "–" : task.answer));
  return lines.empty() ? "" : section("Answers", lines);
}

std::string summary_text(const Sheet& sheet) {
  const std::vector<std::string> paragraphs = closing_summary(sheet.report.analysis.summary);
  if (paragraphs.empty()) return {};
  return section(sheet.options.bars ? "The whole solo in figures" : "The solo in figures", paragraphs);
}

/// A section that is not to stand alone on a page.
std::string kept_with_music(const std::string& section_text) {
  return section_text.empty() ? section_text : "\\noPageBreak\n" + section_text;
}

/// What one sheet is printed from.
struct Page {
  const Sheet& sheet;
  std::span<const WrittenBar> bars;
  LinePlan plan;
  Marks marks;
  bool chords_shown = true;
};

/// A staff under the line, with as many bars and nothing in them.
std::string empty_staff(const Page& page) {
  std::string text;
  for (const WrittenBar& bar : page.bars) text += fmt::format("\\skip {} | ", lilypond_length(bar.length));
  return fmt::format("answers = {{ \\stopStaff \\startStaff {}}}\n\n", text);
}

/// `opening` stands before the first bar.
std::string score(const Page& page, std::string_view opening = "") {
  const bool has_answer_staff = page.sheet.options.answer_staff == AnswerStaff::under_each_line;
  std::string text;
  if (page.chords_shown)
    text += fmt::format("chords-above = \\lyricmode {{\n{}}}\n\n", chord_row(page.sheet, page.bars));
  text += fmt::format("line = {{\n{}{}}}\n\n", opening, staff_music(page.sheet, page.bars, page.plan, page.marks));
  text +=
      fmt::format("degrees-below = \\lyricmode {{\n{}}}\n\n", degree_row(page.sheet, page.bars, page.plan, page.marks));
  const bool has_motions = !page.marks.motions.empty();
  if (has_motions)
    text += fmt::format("motions-below = \\lyricmode {{\n{}}}\n\n", motion_row(page.sheet, page.bars, page.marks));
  if (has_answer_staff) text += empty_staff(page);
  text += "\\score {\n  <<\n";
  if (page.chords_shown) text += "    \\new Lyrics \\with { \\chord-row-style } \\chords-above\n";
  text += "    \\new Staff \\new Voice \\line\n    \\new Lyrics \\with { \\degree-row-style } \\degrees-below\n";
  if (has_motions) text += "    \\new Lyrics \\with { \\motion-row-style } \\motions-below\n";
  if (has_answer_staff) text += "    \\new Staff \\with { \\answer-staff-style } \\answers\n";
  return text + "  >>\n" +
         (page.plan.last == LastLine::short_of_bars ? "  \\layout { ragged-last = ##t }\n}\n\n" : "}\n\n");
}

/// Staves after the music, four empty bars each.
std::string staves_at_the_end(const Sheet& sheet) {
  return sheet.options.answer_staff == AnswerStaff::at_the_end ? "\\empty-staves\n\n" : "";
}

/// On a worksheet every sign is explained, so that the foot gives nothing away.
std::set<std::string> legend_of(const Page& page) {
  std::set<std::string> items = legend_items(page.sheet, page.marks);
  if (page.sheet.options.kind == SheetKind::annotated && page.sheet.options.topics.empty())
    items.insert({"C", "T", "N", "O", "early", "late", "arpeggios", "down", "connections", "guide-tones"});
  if (page.sheet.options.kind != SheetKind::annotated && !page.marks.degrees.empty())
    items.insert({"C", "T", "N", "O", "early", "late"});
  return items;
}

/// How many lines the sections above and below the music take, their headings as two each.
std::size_t lines_of_text(std::string_view sections) {
  constexpr std::string_view paragraph = "  \\paragraph";
  constexpr std::size_t letters_in_a_line = 118;
  std::size_t lines = 0;
  while (!sections.empty()) {
    const std::size_t end = std::min(sections.find('\n'), sections.size() - 1) + 1;
    const std::string_view line = sections.substr(0, end);
    if (line.starts_with("\\markup \\section")) lines += 2;
    if (line.starts_with(paragraph)) lines += 1 + (line.size() - paragraph.size()) / letters_in_a_line;
    sections.remove_prefix(end);
  }
  return lines;
}

/// In points: as large as the music, with `sections` of text, fills a page. Measured on sheets of the demo pieces, in
/// the distances between the lines of a staff; what still does not fit is noticed where the page is made.
double staff_size(const Page& page, std::string_view sections) {
  constexpr double usual = 17.5;
  constexpr double largest_on_one_page = 15.0;
  constexpr double smallest_on_one_page = 12.5;
  if (!page.sheet.options.one_page) return usual;
  constexpr double page_height = 200.0;  // at the largest size
  constexpr double title = 13.0;
  constexpr double line_of_text = 2.65;
  constexpr double empty_staff_under = 11.0;
  constexpr double empty_staves_at_the_end = 36.0;
  constexpr double row_of_motions = 2.0;
  const double system = page.sheet.options.kind == SheetKind::worksheet
                            ? 23.5
                            : 25.5 + (page.marks.motions.empty() ? 0.0 : row_of_motions);
  const AnswerStaff answers = page.sheet.options.answer_staff;
  const double under = answers == AnswerStaff::under_each_line ? empty_staff_under : 0.0;
  const double height = title + line_of_text * static_cast<double>(lines_of_text(sections)) +
                        (system + under) * static_cast<double>(page.plan.starts.size() + 1) +
                        (answers == AnswerStaff::at_the_end ? empty_staves_at_the_end : 0.0);
  return std::clamp(largest_on_one_page * page_height / height, smallest_on_one_page, largest_on_one_page);
}

/// What the prelude is told. `sections` are the texts around the music.
std::string settings(const Page& page, std::string_view sections = "") {
  const Sheet& sheet = page.sheet;
  const bool is_roomy =
      !sheet.options.one_page && (sheet.options.kind != SheetKind::annotated || !page.plan.pages.empty());
  return fmt::format(
      "\\version \"2.24.0\"\n#(set-default-paper-size \"{}\")\n#(set-global-staff-size {:.3g})\n"
      "#(define sheet '{})\n#(define title-size {})\n#(define roomy {})\n#(define fewest-systems {})\n"
      "#(define on-one-page {})\n#(define legend-items '({}))\n",
      paper_name(sheet.options.paper), staff_size(page, sections), sheet_symbol(sheet.options.kind),
      title_size(title_of(sheet.report)), is_roomy ? "#t" : "#f",
      sheet.options.one_page ? 1 : fewest_systems(page.plan), sheet.options.one_page ? "#t" : "#f",
      fmt::join(legend_of(page), " "));
}

Page page_of(const Sheet& sheet, std::span<const WrittenBar> bars, Marks marks) {
  return {sheet, bars, line_plan(sheet, bars), std::move(marks), sheet.options.chords == ChordRow::shown};
}

std::string annotated_text(const Sheet& sheet, std::span<const WrittenBar> bars) {
  const Page page = page_of(sheet, bars, annotated_marks(sheet, sheet.options.topics));
  const std::string summary = sheet.options.topics.empty() ? summary_text(sheet) : "";
  return settings(page, summary) + std::string(printed_prelude()) + "\n" + header(sheet) + "\n" + score(page) +
         staves_at_the_end(sheet) + kept_with_music(summary);
}

std::string tasks_sheet_text(const Sheet& sheet, std::span<const WrittenBar> bars) {
  const std::vector<Task> tasks = worksheet_tasks(sheet);
  Page page = page_of(sheet, bars, marks_of(tasks));
  const bool asks_for_chords = std::ranges::any_of(tasks, &Task::asks_for_chords);
  if (sheet.options.kind == SheetKind::key && asks_for_chords) page.chords_shown = true;
  const std::string above = tasks_text(tasks);
  const std::string below = sheet.options.kind == SheetKind::key ? answers_text(tasks) : "";
  return settings(page, above + below) + std::string(printed_prelude()) + "\n" + header(sheet) + "\n" + above + "\n" +
         score(page) + staves_at_the_end(sheet) + kept_with_music(below);
}

}  // namespace

std::string handout_text(const Report& report, const HandoutOptions& options) {
  const auto excerpt = excerpt_of(report.solo, options.bars);
  assert(excerpt && "the bars are there");
  const Sheet sheet{report, options, *excerpt};
  const std::vector<WrittenBar> all = written_rhythm(report.solo);
  const auto bars = std::span(all).subspan(excerpt->first_bar, excerpt->last_bar - excerpt->first_bar + 1);
  return options.kind == SheetKind::annotated ? annotated_text(sheet, bars) : tasks_sheet_text(sheet, bars);
}

std::size_t lines_of_music(const Report& report, const HandoutOptions& options) {
  const auto excerpt = excerpt_of(report.solo, options.bars);
  assert(excerpt && "the bars are there");
  const Sheet sheet{report, options, *excerpt};
  const std::vector<WrittenBar> all = written_rhythm(report.solo);
  const auto bars = std::span(all).subspan(excerpt->first_bar, excerpt->last_bar - excerpt->first_bar + 1);
  return line_plan(sheet, bars).starts.size() + 1;
}

std::string screen_text(const Report& report, const BarRange& bars) {
  HandoutOptions options;
  options.bars = bars;
  const auto excerpt = excerpt_of(report.solo, options.bars);
  assert(excerpt && "the bars are there");
  const Sheet sheet{report, options, *excerpt};
  const std::vector<WrittenBar> all = written_rhythm(report.solo);
  const auto written = std::span(all).subspan(excerpt->first_bar, excerpt->last_bar - excerpt->first_bar + 1);
  const Page page = page_of(sheet, written, annotated_marks(sheet, {}));
  const std::size_t first = excerpt->first_bar;
  const bool goes_on = first > 0 && report.solo.bars[first - 1].meter == report.solo.bars[first].meter;
  return settings(page) + std::string(printed_prelude()) +
         "\n\\include \"lilypond-book-preamble.ly\"\n\\paper { line-width = 190\\mm }\n\n" +
         score(page, goes_on ? "\\once \\omit Staff.TimeSignature " : "");
}

}  // namespace insideline::reports
