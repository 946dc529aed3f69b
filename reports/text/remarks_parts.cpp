// The line in its parts: phrase by phrase, chorus by chorus, by the kind of chord, and the cells it likes.
#include "reports/text/display_width.hpp"
#include "reports/text/remarks.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <span>
#include <string_view>

namespace insideline::reports {
namespace {

constexpr std::size_t most_phrases = 24;
constexpr std::size_t most_sections = 12;
constexpr std::size_t widest_section = 16;  // columns; a rehearsal mark can be as long as its writer likes
constexpr std::size_t most_cells = 6;
constexpr int fewest_times = 2;

std::string bars_of(const PhraseFigures& phrase) {
  if (phrase.first_bar == phrase.last_bar) return fmt::format("bar {}", phrase.first_bar);
  return fmt::format("bars {}-{}", phrase.first_bar, phrase.last_bar);
}

std::string_view way_of(Contour contour) {
  switch (contour) {
    case Contour::rising: return "rising";
    case Contour::falling: return "falling";
    case Contour::arch: return "up and down";
    case Contour::bowl: return "down and up";
    case Contour::level: return "level";
  }
  return {};
}

std::string degree_or_dash(const std::optional<Degree>& degree) { return degree ? to_string(*degree) : "-"; }

/// "of 12; Gb4-Eb5 falling; b3 to 5; 7 in arpeggios"
std::string shape_of(const PhraseFigures& phrase) {
  return fmt::format("of {}; {}-{} {}; {} to {}; {} in arpeggios", phrase.density.notes, to_string(phrase.lowest),
                     to_string(phrase.highest), way_of(phrase.contour), degree_or_dash(phrase.first_degree),
                     degree_or_dash(phrase.last_degree), phrase.arpeggio_share.count);
}

std::string name_of(const Cell& cell) {
  std::string degrees;
  for (const Degree& degree : cell.degrees) degrees += (degrees.empty() ? "" : "-") + to_string(degree);
  return degrees;
}

/// "down, in dominant chords"
std::string where_of(const Cell& cell) {
  const std::string_view way = cell.direction == Direction::ascending    ? "up"
                               : cell.direction == Direction::descending ? "down"
                                                                         : "both ways";
  return fmt::format("{}, in {} chords", way, to_string(cell.quality));
}

}  // namespace

RemarkSection phrase_remarks(const Report& report) {
  const auto& phrases = report.analysis.phrase_figures;
  RemarkSection section{"Phrase by phrase", {}};
  if (phrases.size() < 2) return section;
  section.remarks.emplace_back(
      "Chord tones, of how many notes; the lowest and highest note and which way it goes; the degrees it begins and "
      "ends "
      "on; notes in arpeggios.");
  for (const PhraseFigures& phrase : std::span(phrases).first(std::min(phrases.size(), most_phrases)))
    section.remarks.emplace_back(
        CountRow{.name = bars_of(phrase), .share = chord_tone_share(phrase.density), .beside = shape_of(phrase)});
  if (phrases.size() > most_phrases)
    section.remarks.emplace_back(
        fmt::format("and {}", counted(static_cast<int>(phrases.size() - most_phrases), "more phrase")));
  return section;
}

RemarkSection group_remarks(const Report& report) {
  const Densities& densities = report.analysis.densities;
  RemarkSection section{"Chord tones by kind of chord", {}};
  if (densities.by_quality.size() > 1)
    for (const QualityDensity& group : densities.by_quality)
      section.remarks.emplace_back(CountRow{
          .name = to_string(group.quality), .share = chord_tone_share(group.density), .role = Role::chord_tone});
  const auto played =
      std::ranges::count_if(densities.by_chorus, [](const Density& chorus) { return chorus.notes > 0; });
  if (played < 2) return section;
  section.title = section.remarks.empty() ? "Chord tones by chorus" : "Chord tones by kind of chord and by chorus";
  for (std::size_t chorus = 0; chorus < densities.by_chorus.size(); ++chorus)
    section.remarks.emplace_back(CountRow{.name = fmt::format("chorus {}", chorus + 1),
                                          .share = chord_tone_share(densities.by_chorus[chorus]),
                                          .role = Role::chord_tone});
  return section;
}

RemarkSection section_remarks(const Report& report) {
  const std::vector<SectionFigures>& figures = report.analysis.section_figures;
  RemarkSection section{"Section by section", {}};
  const auto played = std::ranges::count_if(figures, [](const SectionFigures& row) { return row.density.notes > 0; });
  if (played < 2) return section;
  section.remarks.emplace_back(
      "Chord tones, of how many notes; how often the section comes; notes in arpeggios; connections to the nearest "
      "tone.");
  for (const SectionFigures& row : std::span(figures).first(std::min(figures.size(), most_sections)))
    section.remarks.emplace_back(CountRow{
        .name = cut_to_width(row.name, widest_section),
        .share = chord_tone_share(row.density),
        .beside =
            fmt::format("of {}; {}; {} in arpeggios; {} of {} nearest", row.density.notes, counted(row.times, "time"),
                        row.arpeggio_share.count, row.nearest_taken_share.count, row.nearest_taken_share.of)});
  if (figures.size() > most_sections)
    section.remarks.emplace_back(
        fmt::format("and {}", counted(static_cast<int>(figures.size() - most_sections), "more section")));
  return section;
}

RemarkSection cell_remarks(const Report& report) {
  RemarkSection section{"Cells of two or three tones", {}};
  int all = 0;
  for (const Cell& cell : report.analysis.cells) all += cell.count;
  for (const Cell& cell : report.analysis.cells) {
    if (section.remarks.size() == most_cells || cell.count < fewest_times) break;
    section.remarks.emplace_back(CountRow{.name = name_of(cell), .share = {cell.count, all}, .beside = where_of(cell)});
  }
  return section;
}

}  // namespace insideline::reports
