#include "reports/chord_report.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "reports/text/display_width.hpp"

#include <catch2/catch.hpp>

#include <sstream>

namespace insideline::reports {

TEST_CASE("a chord is shown with its degrees above its notes") {
  const auto chord = parse_chord_symbol("C7(b9)/Bb");
  REQUIRE(chord);
  CHECK(chord_report(chord->value()) ==
        "C7(b9)/Bb\n"
        "  tones           1     3     5     b7    b9\n"
        "                  C     E     G     Bb    Db\n"
        "  tensions        #9    #11   b13   13\n"
        "                  D#    F#    Ab    A\n"
        "  to avoid        11\n"
        "                  F\n"
        "  guide tones     3     b7\n"
        "                  E     Bb\n"
        "  bass            Bb, a tone of the chord\n"
        "  quality         dominant\n"
        "  plainly         C7b9/Bb\n"
        "  academic label  C:7(b9)/b7\n"
        "  in MusicXML     dominant, add 9 (-1)\n");
}

TEST_CASE("a chord with nothing to avoid says so, and no chord is told apart") {
  CHECK(chord_report(parse_chord_symbol("Cdim7").value().value()).find("  to avoid        none\n") !=
        std::string::npos);
  CHECK(no_chord_report("N.C.") == "N.C.\n  no chord        the notes under it are not labelled\n");
}

TEST_CASE("a chord over a strange bass says what it is heard as, an inversion does not") {
  CHECK(chord_report(parse_chord_symbol("Ab/Bb").value().value()).find("  heard as        Bb9sus4\n") !=
        std::string::npos);
  CHECK(chord_report(parse_chord_symbol("Ab/C").value().value()).find("heard as") == std::string::npos);
}

TEST_CASE("however much a symbol says, its report keeps to the page") {
  const auto chord = parse_chord_symbol("C13(b9,#9,#11,b13)addb3add11addb5add#5addmaj7/F#");
  REQUIRE(chord);
  std::istringstream lines(chord_report(chord->value()));
  int count = 0;
  for (std::string line; std::getline(lines, line); ++count) CHECK(display_width(line) <= 80);
  CHECK(count > 12);
}

}  // namespace insideline::reports
