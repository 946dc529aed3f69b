#include "analyzer/measures/figure_table.hpp"

#include "tests/support/analysed.hpp"

#include <algorithm>
#include <optional>
#include <set>
#include <string>

#include <catch2/catch.hpp>

using insideline::ConnectionKind;
using insideline::figure_rows;
using insideline::FigureRow;
using insideline::Material;
using insideline::quotient;
using insideline::Share;
using insideline::Summary;

namespace {

const FigureRow& figure(const std::string& key) {
  const auto rows = figure_rows();
  const auto found = std::ranges::find_if(rows, [&](const FigureRow& row) { return row.key == key; });
  REQUIRE(found != rows.end());
  return *found;
}

/// The summary's own figure of the same name, worked out another way.
std::optional<double> in_summary(const std::string& key, const insideline::Analysis& analysis) {
  const Summary& summary = analysis.summary;
  const auto of_notes = [&](int count) { return ratio(Share{count, summary.chord_tone_share.of}); };
  if (key == "chord_tones") return ratio(summary.chord_tone_share);
  if (key == "chord_tones_by_time") return summary.chord_tone_share_by_duration;
  if (key == "chord_tones_strict") return ratio(summary.chord_tone_share_strict);
  if (key == "chord_tones_strict_by_time") return summary.chord_tone_share_by_duration_strict;
  if (key == "chord_tones_on_beat") return ratio(summary.chord_tone_share_on_beat);
  if (key == "chord_tones_off_beat") return ratio(summary.chord_tone_share_off_beat);
  if (key == "chord_tones_on_strong_beats") return ratio(summary.chord_tone_share_on_strong_beats);
  if (key == "chord_tones_on_changes") return ratio(summary.chord_tone_share_on_changes);
  if (key == "tensions") return of_notes(summary.tensions);
  if (key == "non_chord_tones") return of_notes(summary.non_chord_tones);
  if (key == "outside") return of_notes(summary.outside);
  if (key == "passing_tones")
    return of_notes(summary.figures.contains(insideline::Figure::passing_tone)
                        ? summary.figures.at(insideline::Figure::passing_tone)
                        : 0);
  const int legs = summary.arpeggios_ascending + summary.arpeggios_descending;
  if (key == "arpeggio_notes") return ratio(summary.arpeggio_share);
  if (key == "arpeggio_time") return summary.arpeggio_share_by_duration;
  if (key == "arpeggios_up") return ratio(Share{summary.arpeggios_ascending, legs});
  if (key == "arpeggios_down") return ratio(Share{summary.arpeggios_descending, legs});
  if (key == "straight_descents") return ratio(Share{summary.straight_descents, summary.arpeggios_descending});
  if (key == "nearest_taken") return ratio(summary.nearest_taken_share);
  if (key == "guide_tone_resolutions") return ratio(summary.guide_tone_resolutions);
  if (key == "changes_crossed") return ratio(Share{summary.nearest_taken_share.of, summary.connections});
  if (key == "crossed_by_half_step")
    return ratio(Share{summary.connections_by_kind.at(ConnectionKind::half_step), summary.nearest_taken_share.of});
  if (key == "thirds_given") return ratio(summary.thirds_given);
  if (key == "sevenths_given") return ratio(summary.sevenths_given);
  if (key == "both_given") return ratio(analysis.outline.both);
  FAIL("no figure of the summary for " << key);
  return std::nullopt;
}

}  // namespace

TEST_CASE("a figure is the same bar by bar as in the summary") {
  const std::string key =
      GENERATE("chord_tones", "chord_tones_by_time", "chord_tones_strict", "chord_tones_strict_by_time",
               "chord_tones_on_beat", "chord_tones_off_beat", "chord_tones_on_strong_beats", "chord_tones_on_changes",
               "tensions", "non_chord_tones", "outside", "passing_tones", "arpeggio_notes", "arpeggio_time",
               "arpeggios_up", "arpeggios_down", "straight_descents", "nearest_taken", "guide_tone_resolutions",
               "changes_crossed", "crossed_by_half_step", "thirds_given", "sevenths_given", "both_given");
  INFO(key);
  for (unsigned seed = 1; seed <= 4; ++seed) {
    const auto random = insideline::tests::random_line(seed, 20);
    const auto line = insideline::tests::analysed(random.solo, random.harmony);
    const auto by_bar = quotient(figure(key).by_bar(Material(line.solo, line.analysis)));
    const auto expected = in_summary(key, line.analysis);
    REQUIRE(by_bar.has_value() == expected.has_value());
    if (by_bar) CHECK(*by_bar == Approx(*expected));
  }
}

TEST_CASE("degrees count an octave up and down alike") {
  const auto line = insideline::tests::analysed("Cmaj9@0 Csus2@4", "C4:1 D5:1 E4:1 G4:1 D4:2 G4:2");
  const Material material(line.solo, line.analysis);
  CHECK(quotient(figure("ninths").by_bar(material)) == Approx(2.0 / 6));
  CHECK(quotient(figure("thirds").by_bar(material)) == Approx(1.0 / 6));
  CHECK(quotient(figure("roots").by_bar(material)) == Approx(1.0 / 6));
}

TEST_CASE("chord tones are told apart by the kind of chord") {
  const auto line = insideline::tests::analysed("Dm7@0 G7@4 Bm7b5@8", "D4:2 F4:2 G4:2 C#5:2 B4:4");
  const Material material(line.solo, line.analysis);
  CHECK(quotient(figure("chord_tones_on_minor").by_bar(material)) == Approx(1.0));
  CHECK(quotient(figure("chord_tones_on_dominant").by_bar(material)) == Approx(0.5));
  CHECK(quotient(figure("chord_tones_on_half_diminished").by_bar(material)) == Approx(1.0));
  CHECK_FALSE(quotient(figure("chord_tones_on_major").by_bar(material)));
}

TEST_CASE("every figure has a key of its own and words that fit a page") {
  constexpr std::size_t widest_name = 30;
  std::set<std::string> keys;
  insideline::FigureGroup group = figure_rows().front().group;
  for (const FigureRow& row : figure_rows()) {
    INFO(row.key);
    CHECK(keys.insert(row.key).second);
    CHECK(std::string(row.name).size() <= widest_name);
    CHECK(std::string(row.more).find("clearly") != std::string::npos);
    CHECK(std::string(row.less).find("clearly") != std::string::npos);
    CHECK(std::string(row.more) != row.less);
    CHECK(std::string(row.meaning).ends_with('.'));
    CHECK(row.group >= group);
    group = row.group;
  }
}
