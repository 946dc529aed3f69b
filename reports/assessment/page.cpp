#include "reports/html/page.hpp"
#include "reports/assessment/assessment_report.hpp"
#include "reports/assessment/course_words.hpp"
#include "reports/assessment/words.hpp"
#include "reports/drill_plan.hpp"
#include "reports/html/plots.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::reports {
namespace {

Markup plot_of(const GroupTable& table) {
  std::vector<NamedValue> values;
  for (const TakeGroup& group : *table.groups) {
    values.push_back({group.name, ratio(group.right).value_or(0.0), share_text(group.right)});
  }
  const std::string title(table.title);
  return horizontal_bars({.heading = title, .says = "How much of it was right.", .things = "what"}, "right", values,
                         1.0);
}

Markup note_by_note(const AssessmentReport& report) {
  const Assessment& assessment = report.assessment;
  if (assessment.mistakes.empty()) return {};
  Table shown{.caption = "Every note that was not as written",
              .head = {"where", "to play", "played"},
              .rows = {},
              .numbers_from = 3};
  for (const Mistake& mistake : assessment.mistakes) {
    const MistakeWords words = in_words(mistake);
    shown.rows.push_back({words.where, words.wanted, words.played});
  }
  return section("notes", "Note by note, " + report.note_pitch, table(shown));
}

/// The takes of the log, one after the other.
Markup progress_of(const AssessmentReport& report) {
  if (report.takes.size() < 2) return {};
  PlottedLine all{.name = "all notes", .points = {}};
  PlottedLine down{.name = "descending arpeggios", .points = {}};
  for (std::size_t i = 0; i < report.takes.size(); ++i) {
    const auto x = static_cast<double>(i + 1);
    all.points.push_back({x, ratio(report.takes[i].right).value_or(0.0)});
    if (const auto share = ratio(report.takes[i].down)) down.points.push_back({x, *share});
  }
  std::vector<PlottedLine> lines = {all};
  if (!down.points.empty()) lines.push_back(down);
  Axis across = axis_from_zero("take", static_cast<double>(report.takes.size()));
  const Axis up{.name = "right", .low = 0.0, .high = 1.0, .step = 0.25, .numbers = Numbers::percent};
  return line_plot({.heading = "Takes of this sheet so far", .says = tempo_advice(report), .things = "take"}, across,
                   up, lines);
}

/// The tempo, two bars at a time.
Markup tempo_of(const Assessment& assessment) {
  if (!assessment.tempo || assessment.tempo->tempi.size() < 2) return {};
  PlottedLine line{.name = "quarter notes a minute", .points = {}};
  double fastest = 0.0;
  for (std::size_t i = 0; i < assessment.tempo->tempi.size(); ++i) {
    const double bpm = assessment.tempo->tempi[i].bpm;
    fastest = std::max(fastest, bpm);
    line.points.push_back({static_cast<double>(i + 1), bpm});
  }
  const Axis across = axis_from_zero("piece of some two bars", static_cast<double>(line.points.size()));
  const Axis up = axis_from_zero("quarter notes a minute", fastest);
  const std::vector<PlottedLine> lines = {line};
  return line_plot({.heading = "Tempo", .says = "The tempo from beginning to end.", .things = "piece"}, across, up,
                   lines);
}

}  // namespace

std::string assessment_page(const AssessmentReport& report) {
  Page page;
  page.title = fmt::format("{} against {}", report.take_file, report.sheet_title);
  Markup words;
  for (const std::string& sentence : assessment_sentences(report)) words += element("p", sentence);
  page.main = section("words", "In words", words);
  Markup plots;
  for (const GroupTable& table : group_tables(report.assessment)) plots += plot_of(table);
  plots += tempo_of(report.assessment);
  plots += progress_of(report);
  if (!plots.empty()) page.main += section("plots", "In figures", element("div", {{"class", "plots"}}, plots));
  page.main += note_by_note(report);
  page.main += element("p", caution_line());
  return whole_page(page);
}

}  // namespace insideline::reports
