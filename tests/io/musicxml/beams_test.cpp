#include "io/musicxml/beams.hpp"

#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <string>

using insideline::written_rhythm;
using insideline::io::beams_of;
using insideline::tests::solo_from;

TEST_CASE("flagged notes of one beat hang together, rests and long notes do not") {
  auto [melody, expected] = GENERATE(table<std::string, std::string>({
      {"C4:1/2 D4:1/2 E4:1 F4:2", "begin end - -"},
      {"C4:1/4 D4:1/4 E4:1/2 F4:1 G4:2", "begin/begin continue/end end - -"},
      {"C4:3/4 D4:1/4 F4:1 G4:2", "begin end/backward hook - -"},
      {"C4:1/2 r:1/2 E4:1 F4:2", "- - - -"},
  }));
  const auto solo = solo_from(melody);
  const auto bars = written_rhythm(solo);
  std::string text;
  for (const auto& symbol : beams_of(bars.front(), solo.bars.front().meter)) {
    std::string one;
    for (const auto beam : symbol) one += (one.empty() ? "" : "/") + std::string(beam);
    text += (text.empty() ? "" : " ") + (one.empty() ? "-" : one);
  }
  CHECK(text == expected);
}
