#include "analyzer/measures/figure_table.hpp"
#include "reports/comparison/sentences.hpp"
#include "reports/survey/survey_report.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::reports {
namespace {

/// "Half of the solos have between 70 % and 90 % chord tones; ..."
std::string spread_sentence(const FigureOverview& figure) {
  const Distribution& spread = *figure.spread;
  return fmt::format("{}: half of the solos lie between {} and {}, the median is {}.", figure_rows()[figure.row].name,
                     value_text(figure.row, spread.lower_quarter), value_text(figure.row, spread.upper_quarter),
                     value_text(figure.row, spread.median));
}

std::string frequent(const std::vector<Frequency>& all, std::size_t most) {
  std::vector<std::string> items;
  for (std::size_t i = 0; i < std::min(all.size(), most); ++i)
    items.push_back(
        fmt::format("{} ({} in {})", all[i].name, counted(all[i].count, "time"), counted(all[i].solos, "solo")));
  return listed(items);
}

std::string failures_text(const SurveyWork& work) {
  std::string text;
  for (const FailedFile& file : work.failed)
    text += paragraph(printable(fmt::format("{}: {}", file.path, file.reason)));
  return text;
}

}  // namespace

std::string value_text(std::size_t row, double value) {
  const FigureRow& figure = figure_rows()[row];
  return figure_text(figure, {.sum = {}, .value = value, .block = 1});
}

std::string survey_work_text(const SurveyWork& work) {
  std::vector<std::string> parts;
  const auto add = [&](std::size_t count, std::string_view what) {
    if (count > 0) parts.push_back(fmt::format("{} {}", count, what));
  };
  add(static_cast<std::size_t>(work.analysed), "analysed now");
  add(static_cast<std::size_t>(work.unchanged), "unchanged and not analysed again");
  add(static_cast<std::size_t>(work.elsewhere), "of other parts of this collection");
  add(work.twice.size(), "the same as another");
  add(static_cast<std::size_t>(work.no_scores), "no score (.xml of another kind)");
  add(work.failed.size(), "not used");
  std::string text =
      paragraph(printable(fmt::format("In {}: {}{}{}.", listed(work.folders), counted(work.found, "file"),
                                      parts.empty() ? "" : ", of them ", listed(parts))),
                0);
  if (!work.twice.empty()) text += "\nThe same solo twice, counted once\n";
  for (const auto& [file, same_as] : work.twice)
    text += paragraph(printable(fmt::format("{} is the same as {}", file, same_as)));
  if (!work.links_out.empty()) text += "\nLinks out of the folder, not followed (--through-links follows them)\n";
  for (const std::string& link : work.links_out) text += paragraph(printable(link));
  if (!work.failed.empty())
    text += fmt::format("\nNot used: {}\n", counted(static_cast<int>(work.failed.size()), "file"));
  return text + failures_text(work);
}

std::string part_work_text(const SurveyWork& work, const std::string& part, int solos) {
  std::string text = fmt::format("{}: {}, of them {} analysed now", part, counted(solos, "solo"), work.analysed);
  if (!work.failed.empty())
    text += fmt::format("; not used: {}", counted(static_cast<int>(work.failed.size()), "file"));
  if (!work.links_out.empty())
    text += fmt::format("; not followed: {}", counted(static_cast<int>(work.links_out.size()), "link"));
  return text + "\n" + failures_text(work);
}

std::vector<std::string> collection_sentences(const CollectionReport& report) {
  std::vector<std::string> sentences;
  sentences.push_back(fmt::format("The collection has {} {} {}: {} in {}.", counted(report.size, "solo"),
                                  report.grouped_by == "folder" ? "in" : "by",
                                  counted(report.groups, report.grouped_by), counted(report.notes, "note"),
                                  counted(report.bars, "bar")));
  constexpr std::size_t fewest = 4;  // to speak of half of the solos
  for (const FigureOverview& figure : report.figures) {
    const std::string_view key = figure_rows()[figure.row].key;
    if (figure.spread && figure.spread->count >= fewest &&
        (key == "chord_tones" || key == "arpeggio_notes" || key == "nearest_taken"))
      sentences.push_back(with_capital(spread_sentence(figure)));
  }
  if (!report.cells.empty())
    sentences.push_back(fmt::format("The most frequent cells are {}.", frequent(report.cells, 3)));
  if (!report.arpeggios.empty())
    sentences.push_back(fmt::format("The most frequent arpeggios are {}.", frequent(report.arpeggios, 3)));
  return sentences;
}

}  // namespace insideline::reports
