#include "reports/printed/marks.hpp"

#include "reports/text/marks.hpp"
#include "tests/reports/sample_report.hpp"

#include <catch2/catch.hpp>

using insideline::reports::add_marks;
using insideline::reports::annotated_marks;
using insideline::reports::bracket_of;
using insideline::reports::ChordRow;
using insideline::reports::drawn_connections;
using insideline::reports::excerpt_of;
using insideline::reports::legend_items;
using insideline::reports::Marks;
using insideline::reports::Report;
using insideline::reports::Ring;
using insideline::reports::Sheet;
using insideline::reports::Topic;
using insideline::tests::sample_report;

namespace {

struct Sample {
  Report report = sample_report();
  Sheet sheet{report, {}, *excerpt_of(report.solo, std::nullopt)};
};

using Notes = std::set<std::size_t>;
using Items = std::set<std::string>;

}  // namespace

TEST_CASE("without topics everything is drawn, but no degree under a grace note") {
  const Sample sample;
  const Marks marks = annotated_marks(sample.sheet, {});
  CHECK(marks.degrees == Notes{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 12});
  CHECK(marks.coloured.size() == 13);
  REQUIRE(marks.brackets.size() == 1);
  CHECK(marks.brackets[0].notes == std::vector<std::size_t>{0, 1, 2, 3});
  CHECK(marks.arrows == std::map<std::size_t, bool>{{6, true}});
}

TEST_CASE("a sheet about one topic leaves the rest plain") {
  const Sample sample;
  const Marks tensions = annotated_marks(sample.sheet, {Topic::tensions});
  CHECK(tensions.degrees == Notes{4, 9});
  CHECK(tensions.coloured == Notes{4, 9});
  CHECK(tensions.brackets.empty());
  const Marks arpeggios = annotated_marks(sample.sheet, {Topic::arpeggios});
  CHECK(arpeggios.degrees == Notes{0, 1, 2, 3});
  CHECK(arpeggios.arrows.empty());
  const Marks degrees = annotated_marks(sample.sheet, {Topic::degrees});
  CHECK(degrees.degrees.size() == 12);
  CHECK(degrees.coloured.empty());
  const Marks both = annotated_marks(sample.sheet, {Topic::guide_tones, Topic::outside});
  CHECK(both.degrees == Notes{6, 7, 12});
}

TEST_CASE("what a non-chord tone does stands under it on a sheet about non-chord tones, and in the key of that sheet") {
  const Sample sample;
  const Marks marks = annotated_marks(sample.sheet, {Topic::non_chord_tones});
  REQUIRE_FALSE(marks.motions.empty());
  const Items key = legend_items(sample.sheet, marks);
  for (const std::size_t note : marks.motions) {
    const auto& label = sample.report.analysis.labels[note];
    CHECK(label.role == insideline::Role::non_chord_tone);
    CHECK(key.contains(std::string(insideline::reports::abbreviation(label.figure))));
  }
  CHECK(annotated_marks(sample.sheet, {Topic::tensions}).motions.empty());
  CHECK(annotated_marks(sample.sheet, {}).motions.empty());  // there everything else needs the room
}

TEST_CASE("an arrow stands only between two notes next to each other on the sheet") {
  const Sample sample;
  REQUIRE(drawn_connections(sample.sheet).size() == 1);
  CHECK(drawn_connections(sample.sheet)[0]->from_note == 6);
  Report far = sample_report();
  far.analysis.connections[0].to_note = 8;
  CHECK(drawn_connections({far, {}, *excerpt_of(far.solo, std::nullopt)}).empty());
}

TEST_CASE("the legend explains what is drawn and nothing else") {
  const Sample sample;
  CHECK(legend_items(sample.sheet, annotated_marks(sample.sheet, {})) ==
        Items{"C", "T", "N", "O", "early", "arpeggios", "guide-tones"});
  CHECK(legend_items(sample.sheet, annotated_marks(sample.sheet, {Topic::tensions})) == Items{"T"});
  CHECK(legend_items(sample.sheet, {}).empty());
}

TEST_CASE("a leg has a bracket of its own, with its degrees where there are chords to count them from") {
  const Sample sample;
  const auto& arpeggio = sample.report.analysis.arpeggios[0];
  CHECK(bracket_of(arpeggio, arpeggio.legs[0], ChordRow::shown).text ==
        "\\markup \\cell \"up\" { \\plain-degree \"\" \"1\" \"-\" \\plain-degree \"b\" \"3\" \"-\" \\plain-degree \"\" "
        "\"5\" \"-\" \\plain-degree \"b\" \"7\" }");
  CHECK(bracket_of(arpeggio, arpeggio.legs[0], ChordRow::left_out).text == "\\markup \\cell \"up\" { }");
}

TEST_CASE("two sets of marks on one note are both drawn, brackets in the order of the line") {
  Marks marks;
  marks.words[3] = {"T"};
  marks.brackets = {{{5, 6}, "b"}};
  Marks more;
  more.words[3] = {"ANT"};
  more.rings[3] = Ring::circle;
  more.brackets = {{{1, 2}, "a"}};
  add_marks(marks, more);
  CHECK(marks.words[3] == std::vector<std::string>{"T", "ANT"});
  CHECK(marks.rings.at(3) == Ring::circle);
  CHECK(marks.brackets[0].text == "a");
}
