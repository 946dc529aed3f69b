#include "analyzer/chart_part.hpp"

#include "tests/support/drilled.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::Beats;
using insideline::Changes;
using insideline::ChordSpan;
using insideline::FormBar;
using insideline::part_of;

namespace {

std::string chords_of(const Changes& changes) {
  std::string line;
  for (const ChordSpan& span : changes.spans)
    line += (line.empty() ? "" : " ") + (span.chord ? span.chord->symbol : "N.C.") + "@" + to_string(span.onset) + "+" +
            to_string(span.duration);
  return line;
}

}  // namespace

TEST_CASE("a part of a chart begins at its own bar 1 and ends where its last bar does") {
  const Changes whole = insideline::tests::chart("Dm7 G7 | Cmaj7 | Am7 D7 | N.C.");
  const Changes part = part_of(whole, 1, 2);
  CHECK(chords_of(part) == "Cmaj7@0+4 Am7@4+2 D7@6+2");
  REQUIRE(part.bars.size() == 2);
  CHECK(part.bars[1].onset == Beats(4));
  CHECK(form_length(part) == Beats(8));
  CHECK(chords_of(part_of(whole, 0, whole.bars.size())) == chords_of(whole));
}

TEST_CASE("a chord that sounds on into the part begins there, one that sounds on behind it stops") {
  Changes whole;
  whole.bars = {FormBar{Beats(0), Beats(4), "A"}, FormBar{Beats(4), Beats(4), "A"}, FormBar{Beats(8), Beats(4), "B"}};
  whole.spans = {{insideline::tests::chart("C7").spans.front().chord, Beats(0), Beats(12)}};
  whole.pickup = Beats(1);
  const Changes part = part_of(whole, 1, 1);
  CHECK(chords_of(part) == "C7@0+4");
  CHECK_FALSE(part.pickup);
  CHECK(part.bars.front().section == "A");
}
