#include "reports/html/line_map.hpp"

#include "tests/reports/sample_report.hpp"

#include <string>

#include <catch2/catch.hpp>

using Catch::Contains;
using insideline::Role;
using insideline::reports::lay_out_map;
using insideline::reports::line_map;
using insideline::reports::map_system;
using insideline::reports::Report;
using insideline::reports::role_class;
using insideline::tests::report_without_chords;
using insideline::tests::sample_report;

namespace {

std::string system_of(const Report& report) { return map_system(report, lay_out_map(report), 0).html(); }

}  // namespace

TEST_CASE("every note has a mark of its role and its degree") {
  const std::string html = system_of(sample_report());
  CHECK_THAT(html, Contains("<g id=\"n0\" class=\"note c\"") && Contains("<g id=\"n4\" class=\"note t\"") &&
                       Contains("<g id=\"n6\" class=\"note n\"") && Contains("<g id=\"n12\" class=\"note o\""));
  CHECK_THAT(html, Contains("href=\"#mark-t\"") && Contains(">[9]</text>") && Contains(">♭3</text>"));
  CHECK_THAT(html, Contains("href=\"#small-n\""));  // the grace note
}

TEST_CASE("chord symbols, lanes, brackets and connections are drawn") {
  const std::string html = system_of(sample_report());
  CHECK_THAT(html, Contains("id=\"c0\" class=\"chord\"") && Contains(">Dm7</text>") && Contains(">Cmaj7</text>"));
  CHECK_THAT(html, Contains("<g class=\"lanes\" aria-hidden=\"true\">") && Contains("class=\"root\""));
  CHECK_THAT(html, Contains(">up 1 ♭3 5 ♭7</text>"));
  CHECK_THAT(html, Contains("<path class=\"guide\""));
  CHECK_THAT(html, Contains("aria-label=\"bars 1 to 3\""));
}

TEST_CASE("a line without chords has neither lanes nor connections") {
  const std::string html = system_of(report_without_chords());
  CHECK_THAT(html, Contains("<g id=\"n0\" class=\"note x\"") && Contains("href=\"#mark-x\""));
  CHECK_THAT(html,
             !Contains("class=\"lanes\"") && !Contains("class=\"connections\"") && !Contains("class=\"brackets\""));
}

TEST_CASE("symbols with markup in them are text") {
  Report report = sample_report();
  report.analysis.harmony.chords[0].chord.symbol = "<b onload=x>";
  const std::string html = system_of(report);
  CHECK_THAT(html, Contains("&lt;b onload=x&gt;") && !Contains("<b "));
}

TEST_CASE("the map has its legend, and toggles for what it shows") {
  const Report report = sample_report();
  const std::string html = line_map(report, lay_out_map(report)).html();
  for (const char* part : {"lanes", "degrees", "brackets", "connections"})
    CHECK_THAT(html, Contains("data-part=\"" + std::string(part) + "\" checked>"));
  CHECK_THAT(html, !Contains("data-part=\"stacked\""));  // one chorus
  for (const char* sign : {"chord tone", "tension", "non-chord tone", "outside", "no chord", "arpeggio", "its root"})
    CHECK_THAT(html, Contains(sign));
}

TEST_CASE("each role has its own class") {
  CHECK(role_class(Role::chord_tone) == "c");
  CHECK(role_class(Role::tension) == "t");
  CHECK(role_class(Role::non_chord_tone) == "n");
  CHECK(role_class(Role::outside) == "o");
  CHECK(role_class(Role::no_chord) == "x");
}
