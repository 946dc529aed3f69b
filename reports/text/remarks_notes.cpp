// What the notes are: chord tones and the rest, held against chance.
#include "analyzer/enclosures.hpp"
#include "reports/tallies.hpp"
#include "reports/text/remarks.hpp"
#include "reports/text/wording.hpp"

#include <fmt/format.h>

#include <cmath>
#include <map>

namespace insideline::reports {
namespace {

std::string on_and_off_beat(const Summary& summary) {
  const Share& on = summary.chord_tone_share_on_beat;
  const Share& off = summary.chord_tone_share_off_beat;
  std::string text = fmt::format("Chord tones on the beat: {}; off the beat: {}", share_text(on), share_text(off));
  if (summary.chord_tone_share_on_changes.of > 0)
    text += fmt::format("; struck together with a new chord: {}", share_text(summary.chord_tone_share_on_changes));
  text += ".";
  if (summary.chord_tone_share_by_duration)
    text += fmt::format(" By length, chord tones fill {} of the time played.",
                        percent(*summary.chord_tone_share_by_duration));
  return text;
}

std::string verdict(const Chance& chance, double p_value) {
  constexpr double beyond_luck = 0.01;
  constexpr double hardly_luck = 0.05;
  constexpr double good_sign = 0.2;
  const bool too_few_to_tell = 1.0 / (chance.shifts + 1) > hardly_luck;
  if (p_value <= beyond_luck) return "That is not luck: the line follows these changes.";
  if (p_value <= hardly_luck) return "That is hardly luck: the line follows these changes.";
  if (p_value <= good_sign)
    return too_few_to_tell
               ? fmt::format("A good sign, though {} are too few to be sure.", counted(chance.shifts, "comparison"))
               : "A good sign, but no proof.";
  return "So the share alone does not show that the line follows these changes.";
}

/// Of a line that fits another place better nothing is said before it lies there.
std::string place_or_verdict(const Report& report, double p_value) {
  if (report.alignment && report.alignment->better)
    return "But it fits another place of these changes better (see the warning), so this says nothing yet.";
  return verdict(report.analysis.summary.chance, p_value);
}

std::string how_often(double p_value) {
  constexpr double one_in_two = 0.5;
  if (p_value > one_in_two) return fmt::format("more often than not (p = {:.2f})", p_value);
  return fmt::format("about 1 time in {:.0f} (p = {:.{}f})", std::floor(1.0 / p_value + 0.5), p_value,
                     p_value < 0.1 ? 3 : 2);
}

struct FigureRow {
  Figure figure;
  const char* name;
  const char* meaning;
};

// The motions in the order of the teaching literature; meanings after the motion each
// label requires (analyzer/labels).
constexpr FigureRow motions[] = {
    {Figure::passing_tone, "passing tones", "by step through, from one tone to another"},
    {Figure::neighbour_tone, "neighbour tones", "by step away from a tone and back"},
    {Figure::double_neighbour, "double neighbours", "both sides of a tone just heard, and back"},
    {Figure::enclosure, "in enclosures", "both sides of a tone to come, then the tone"},
    {Figure::approach_tone, "approach tones", "leapt to, then a step into the tone"},
    {Figure::appoggiatura, "appoggiaturas", "lean on a strong place, then resolve by step"},
    {Figure::escape_tone, "escape tones", "left the tone by step, go on by leap"},
    {Figure::pedal, "pedal tones", "stay while the chords move"},
    {Figure::unexplained, "unexplained", "outside, and no motion explains them"},
};

int count_of(const std::map<Figure, int>& figures, Figure figure) {
  const auto found = figures.find(figure);
  return found == figures.end() ? 0 : found->second;
}

/// An enclosure has a note or several of these.
std::string enclosures_in_words(const Report& report) {
  const auto found = find_enclosures(report.solo, report.analysis.labels);
  return fmt::format("of {}: both sides, then the tone", counted(static_cast<int>(found.size()), "enclosure"));
}

std::string tensions_listed(const Report& report) {
  std::vector<std::string> items;
  for (const Tally& tally : tensions_by_degree(report.solo, report.analysis.labels))
    items.push_back(fmt::format("[{}] {}", tally.name, tally.where.size()));
  return listed(items);
}

}  // namespace

RemarkSection chord_tone_remarks(const Report& report) {
  const Summary& summary = report.analysis.summary;
  const int all = summary.chord_tone_share.of;
  RemarkSection section{"Chord tones", {}};
  if (all == 0) {
    section.remarks = {"No note sounds over a chord, so there is nothing to count."};
    return section;
  }
  section.remarks = {
      fmt::format("{} {}.", share_text(summary.chord_tone_share, "note"),
                  agreeing(summary.chord_tone_share.count, "is heard as a chord tone", "are heard as chord tones")),
      CountRow{.name = "chord tones", .share = {summary.chord_tones, all}, .role = Role::chord_tone},
      CountRow{.name = "tensions", .share = {summary.tensions, all}, .role = Role::tension},
      CountRow{.name = "non-chord tones", .share = {summary.non_chord_tones, all}, .role = Role::non_chord_tone},
      CountRow{.name = "outside", .share = {summary.outside, all}, .role = Role::outside},
      on_and_off_beat(summary),
  };
  return section;
}

RemarkSection chance_in_brief(const Report& report) {
  const Chance& chance = report.analysis.summary.chance;
  RemarkSection section{"These changes, or luck?", {}};
  if (!chance.mean || !chance.p_value) return section;
  section.remarks.emplace_back(fmt::format(
      "Strictly, each note against the chord that sounds when it is struck, {} of the line fits; over the same changes "
      "shifted by whole bars it would be {}. {}",
      percent(chance.actual), percent(*chance.mean), place_or_verdict(report, *chance.p_value)));
  return section;
}

RemarkSection chance_remarks(const Report& report) {
  const Summary& summary = report.analysis.summary;
  const Chance& chance = summary.chance;
  const Share& strict = summary.chord_tone_share_strict;
  RemarkSection section{"These changes, or luck?", {}};
  if (strict.of == 0) return section;
  section.remarks.emplace_back(fmt::format(
      "Strictly, each note against the chord that sounds when it is struck: {} {}. A seven-note scale run up and down "
      "over a seventh chord already gives 4 of 7 (57 %).",
      share_text(strict, "note"), agreeing(strict.count, "fits", "fit")));
  if (!chance.mean || !chance.p_value)
    section.remarks.emplace_back(
        "These changes cannot be shifted by whole bars, so there is no chance level to hold this against.");
  else
    section.remarks.emplace_back(fmt::format(
        "The same line over the same changes shifted by whole bars gets {} on average ({}). A line that took no "
        "notice of where the chords change would fit as well as this one {}. {}",
        percent(*chance.mean), counted(chance.shifts, "other way to lay them", "other ways to lay them"),
        how_often(*chance.p_value), place_or_verdict(report, *chance.p_value)));
  return section;
}

RemarkSection other_note_remarks(const Report& report) {
  const Summary& summary = report.analysis.summary;
  RemarkSection section{"The other notes", {}};
  if (summary.tensions > 0)
    section.remarks.emplace_back(fmt::format("{}: {}.", counted(summary.tensions, "tension"), tensions_listed(report)));
  const int moving = summary.non_chord_tones + summary.outside;
  if (moving == 0) return section;
  section.remarks.emplace_back(fmt::format("{} on {} way{}, by what {}:", counted(summary.non_chord_tones, "note"),
                                           summary.non_chord_tones == 1 ? "its" : "their",
                                           summary.outside > 0 ? fmt::format(" and {} outside", summary.outside) : "",
                                           moving == 1 ? "it does" : "they do"));
  for (const FigureRow& row : motions) {
    const int count = count_of(summary.figures, row.figure);
    if (count == 0) continue;
    const bool is_enclosure = row.figure == Figure::enclosure;
    section.remarks.emplace_back(CountRow{.name = row.name,
                                          .share = {count, moving},
                                          .beside = is_enclosure ? enclosures_in_words(report) : row.meaning});
  }
  return section;
}

}  // namespace insideline::reports
