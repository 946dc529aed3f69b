#include "analyzer/measures/figure_table.hpp"
#include "reports/survey/survey_report.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace insideline::reports {
namespace {

constexpr std::size_t name_width = 31;
constexpr std::size_t group_width = 24;
constexpr std::size_t most_apart = 3;    // solos named for one figure
constexpr std::size_t most_groups = 40;  // lines of one table
constexpr double percents = 100.0;

bool is_shown(const FigureOverview& figure, Depth depth) {
  return figure.spread && (depth == Depth::everything || figure_rows()[figure.row].rank == FigureRank::main);
}

std::string spread_table(const CollectionReport& report, Depth depth, Colour colour) {
  std::string text = painted("Figure by figure", Ink::title, colour) + "\n";
  text += fmt::format("  {:<{}}{:>6}{:>11}{:>11}{:>11}\n", "", name_width, "solos", "low", "median", "high");
  for (const FigureOverview& figure : report.figures) {
    if (!is_shown(figure, depth)) continue;
    const Distribution& spread = *figure.spread;
    text += fmt::format("  {:<{}}{:>6}{:>11}{:>11}{:>11}\n", figure_rows()[figure.row].name, name_width, spread.count,
                        value_text(figure.row, spread.tenth), value_text(figure.row, spread.median),
                        value_text(figure.row, spread.nine_tenths));
  }
  text += "\n" + paragraph("Half of the solos lie below the median. A tenth lies below low, a tenth above high.");
  return text;
}

std::string groups_table(const CollectionReport& report, Colour colour) {
  if (report.figures.empty() || report.figures.front().groups.size() < 2) return {};
  const FigureOverview& figure = report.figures.front();  // chord tones, the first figure of all
  std::string text = "\n" + painted(fmt::format("Chord tones by {}", report.grouped_by), Ink::title, colour) + "\n";
  std::size_t shown = 0;
  for (const GroupSpread& group : figure.groups) {
    if (++shown > most_groups) break;
    text +=
        fmt::format("  {} {:>9}, median {}, from {} to {}\n", padded_right(printable(group.name), group_width),
                    counted(static_cast<int>(group.spread.count), "solo"), value_text(figure.row, group.spread.median),
                    value_text(figure.row, group.spread.lowest), value_text(figure.row, group.spread.highest));
  }
  if (figure.groups.size() > most_groups)
    text += paragraph(fmt::format("... and {} more; the page of --html has all.", figure.groups.size() - most_groups));
  return text;
}

std::string apart_text(const CollectionReport& report, Colour colour) {
  std::string text;
  for (const FigureOverview& figure : report.figures) {
    if (!is_shown(figure, Depth::main_figures) || figure.apart.empty()) continue;
    std::vector<std::string> items;
    for (std::size_t i = 0; i < std::min(figure.apart.size(), most_apart); ++i)
      items.push_back(fmt::format("{} ({})", report.solos[figure.apart[i].solo].path,
                                  value_text(figure.row, figure.apart[i].value)));
    if (figure.apart.size() > most_apart) items.push_back(fmt::format("{} more", figure.apart.size() - most_apart));
    text += paragraph(printable(fmt::format("{}: {}", figure_rows()[figure.row].name, listed(items))));
  }
  if (text.empty()) return {};
  return "\n" + painted("Solos that stand apart", Ink::title, colour) + "\n" + text +
         paragraph(
             "Apart is further from the middle half of the solos than one and a half times its width (Tukey's "
             "rule). It may be a style of its own or a mistake in the file.");
}

std::string frequent_table(const std::string& title, const std::vector<Frequency>& all, Colour colour) {
  if (all.empty()) return {};
  std::string text = "\n" + painted(title, Ink::title, colour) + "\n";
  for (const Frequency& one : all)
    text += fmt::format("  {:<18}{:>8} in {}\n", one.name, one.count, counted(one.solos, "solo"));
  return text;
}

}  // namespace

std::string collection_text(const CollectionReport& report, Depth depth, Colour colour) {
  std::string text;
  for (const std::string& sentence : collection_sentences(report)) text += paragraph(sentence, 0);
  if (report.size == 0) return text;
  text += "\n" + spread_table(report, depth, colour);
  if (depth == Depth::main_figures) return text;
  text += groups_table(report, colour) + apart_text(report, colour);
  text += frequent_table("Cells, the most frequent", report.cells, colour);
  text += frequent_table("Arpeggios, the most frequent", report.arpeggios, colour);
  return text;
}

std::string standing_text(const std::string& collection, const std::vector<FigureStanding>& standings) {
  std::size_t solos = 0;
  for (const FigureStanding& standing : standings) solos = std::max(solos, standing.solos);
  if (solos == 0) return paragraph(printable(collection) + " has no solos to stand among.", 0);
  std::string text =
      printable(fmt::format("Among the {} of {}", counted(static_cast<int>(solos), "solo"), collection)) + "\n";
  text += fmt::format("  {:<{}}{:>9}{:>9}  {}\n", "", name_width, "here", "median", "higher than");
  for (const FigureStanding& standing : standings)
    text += fmt::format("  {:<{}}{:>9}{:>9}  {:.0f} of 100\n", figure_rows()[standing.row].name, name_width,
                        value_text(standing.row, standing.value), value_text(standing.row, standing.median),
                        percents * standing.below);
  return text;
}

}  // namespace insideline::reports
