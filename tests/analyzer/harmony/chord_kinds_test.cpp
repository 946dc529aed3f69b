#include "analyzer/harmony/chord_kinds.hpp"

#include "analyzer/harmony/tensions.hpp"
#include "tests/support/chord_reading.hpp"

#include <catch2/catch.hpp>

#include <algorithm>
#include <set>
#include <vector>

namespace insideline::tests {

TEST_CASE("every kind of chord in the table is what its suffix reads as, and no two are the same") {
  std::set<std::string> seen;
  for (const ChordKind& kind : chord_kinds()) {
    const std::string symbol = "C" + std::string(kind.suffix);
    INFO(symbol);
    CHECK(chord_from(symbol).tones == kind.tones);
    CHECK(seen.insert(spelled(kind.tones)).second);
  }
}

TEST_CASE("on every ordinary root a kind of chord is what its symbol reads as, tensions and all") {
  for (const ChordKind& kind : chord_kinds())
    for (const char letter : std::string("CDEFGAB"))
      for (const std::string accidental : {"b", "", "#"}) {
        const std::string root = letter + accidental;
        const std::string symbol = root + std::string(kind.suffix);
        INFO(symbol);
        CHECK(same_chord(chord_from(symbol), make_chord(symbol, *parse_note_name(root), kind.tones)));
      }
}

TEST_CASE("the tones that players name plainly have that name") {
  const auto [tones, suffix] = GENERATE(table<const char*, const char*>({
      {"1 3 5", ""},
      {"1 b3 5", "m"},
      {"1 3 5 b7", "7"},
      {"1 3 5 7", "maj7"},
      {"1 b3 5 b7", "m7"},
      {"1 b3 b5", "dim"},
      {"1 3 #5", "aug"},
      {"1 b3 b5 b7", "m7b5"},
      {"1 b3 b5 bb7", "dim7"},
      {"1 b3 5 7", "mMaj7"},
      {"1 3 #5 b7", "7#5"},
      {"1 3 #5 7", "maj7#5"},
      {"1 3 b5 b7", "7b5"},
      {"1 b3 b5 7", "dimMaj7"},
      {"1 3 5 b7 9", "9"},
      {"1 3 5 7 9", "maj9"},
      {"1 b3 5 b7 9", "m9"},
      {"1 b3 5 7 9", "mMaj9"},
      {"1 b3 b5 b7 9", "m9b5"},
      {"1 b3 5 b7 9 11", "m11"},
      {"1 b3 b5 b7 9 11", "m11b5"},
      {"1 3 5 b7 9 13", "13"},
      {"1 3 5 7 9 13", "maj13"},
      {"1 b3 5 b7 9 13", "m13"},
      {"1 3 5 6", "6"},
      {"1 b3 5 6", "m6"},
      {"1 3 5 6 9", "69"},
      {"1 b3 5 6 9", "m69"},
      {"1 4 5", "sus4"},
      {"1 2 5", "sus2"},
      {"1 4 5 b7", "7sus4"},
      {"1 4 5 7", "maj7sus4"},
      {"1 4 5 b7 9", "9sus4"},
      {"1 4 5 b7 9 13", "13sus4"},
      {"1 5 b7 9 11", "11"},
      {"1 5 7 9 11", "maj11"},
      {"1 5", "5"},
  }));
  INFO(tones);
  const auto kinds = chord_kinds();
  const std::vector<Degree> degrees = make_chord("", {}, degrees_from(tones)).tones;
  const auto kind = std::ranges::find(kinds, degrees, &ChordKind::tones);
  REQUIRE(kind != kinds.end());
  CHECK(kind->suffix == suffix);
}

}  // namespace insideline::tests
