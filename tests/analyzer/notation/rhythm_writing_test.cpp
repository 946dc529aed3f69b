#include "analyzer/notation/rhythm_writing.hpp"

#include "tests/analyzer/notation/rhythm_shorthand.hpp"
#include "tests/support/analysed.hpp"
#include "tests/support/melody.hpp"

#include <catch2/catch.hpp>

#include <tuple>

using namespace std::string_literals;
using insideline::Beats;
using insideline::Meter;
using insideline::Solo;
using insideline::written_rhythm;
using insideline::WrittenBar;
using insideline::WrittenGroup;
using insideline::WrittenSymbol;
using insideline::tests::random_line;
using insideline::tests::solo_from;
using insideline::tests::text_of;

namespace {

using Row = std::tuple<std::string, std::string, std::string>;

/// What the symbols of a bar add up to.
Beats sum_of(const WrittenBar& bar) {
  Beats sum;
  for (const WrittenGroup& group : bar.groups)
    for (const WrittenSymbol& symbol : group.symbols)
      sum += length_of(symbol.value) * Beats(group.in_time_of, group.notes);
  return sum;
}

}  // namespace

TEST_CASE("lengths in four quarters are split where a reader looks for the beat") {
  const auto [why, melody, written] = GENERATE(table<std::string, std::string, std::string>({
      Row{"a whole bar", "C4:4", "1"},
      Row{"a dotted half from the first beat", "C4:3 D4:1", "2. 4"},
      Row{"a half in the middle of the bar is a syncopation", "C4:1 D4:2 E4:1", "4 2 4"},
      Row{"an off-beat quarter inside a half bar stays whole", "C4:1/2 D4:1 E4:1/2 F4:2", "8 4 8 2"},
      Row{"an off-beat quarter over the middle is tied", "C4:3/2 D4:1 E4:3/2", "4. 8~8 4."},
      Row{"a dotted quarter up to the middle stays whole", "C4:1/2 D4:3/2 E4:2", "8 4. 2"},
      Row{"five eighths from the first beat", "C4:5/2 D4:3/2", "2~8 4."},
      Row{"an off-beat half shows the middle", "C4:1/2 D4:2 E4:3/2", "8 4.~8 4."},
      Row{"a dotted eighth and a sixteenth", "C4:3/4 D4:1/4 E4:1/4 F4:3/4 G4:2", "8. 16 16 8. 2"},
      Row{"a tie over the bar line", "C4:3 D4:2 E4:3", "2. 4~| 4 2."},
      Row{"rests never hide a beat", "C4:1/2 r:5/2 D4:1", "8 r8 r4 r4 4"},
      Row{"a half rest stands in its half", "C4:1 r:1 D4:2", "4 r4 2"},
      Row{"silence after the last note", "C4:1 r:3", "4 r4 r2"},
      Row{"grace notes go before the note they lead to", "C4:1 Eb4:0 D4:0 E4:3", "4 gg2."},
  }));
  INFO(why);
  CHECK(text_of(written_rhythm(solo_from(melody))) == written);
}

TEST_CASE("three in the time of two and other tuplets are written with their number") {
  const auto [why, melody, written] = GENERATE(table<std::string, std::string, std::string>({
      Row{"triplet eighths", "C4:1/3 D4:1/3 E4:1/3 F4:3", "3:2(8 8 8) 2."},
      Row{"a swing figure", "C4:2/3 D4:1/3 E4:3", "3:2(4 8) 2."},
      Row{"quarters in two beats", "C4:2/3 D4:2/3 E4:2/3 F4:2", "3:2(4 4 4) 2"},
      Row{"quarters of which one is divided", "C4:2/3 D4:2/3 E4:1/3 F4:1/3 G4:2", "3:2(4 4 8 8) 2"},
      Row{"halves in four beats", "C4:4/3 D4:4/3 E4:4/3", "3:2(2 2 2)"},
      Row{"a long and a short one", "C4:4/3 D4:2/3 E4:2", "3:2(2 4) 2"},
      Row{"two triplets tied in the middle", "C4:1/3 D4:1/3 E4:2/3 F4:1/3 G4:1/3 A4:2", "3:2(8 8 8~) 3:2(8 8 8) 2"},
      Row{"a note held into a triplet is tied at the beat", "C4:1/2 D4:5/6 E4:1/3 F4:1/3 G4:2", "8 8~3:2(8 8 8) 2"},
      Row{"sixteenths in half a beat", "C4:1/6 D4:1/6 E4:1/6 F4:1/2 G4:3", "3:2(16 16 16) 8 2."},
      Row{"six in a beat, three and three", "C4:1/6 D4:1/6 E4:1/6 F4:1/6 G4:1/6 A4:1/6 B4:3",
          "3:2(16 16 16) 3:2(16 16 16) 2."},
      Row{"five in a beat", "C4:1/5 D4:1/5 E4:1/5 F4:1/5 G4:1/5 A4:3", "5:4(16 16 16 16 16) 2."},
      Row{"six in a beat that do not part in the middle", "C4:1/6 D4:1/6 E4:1/3 F4:1/6 G4:1/6 A4:3",
          "6:4(16 16 8 16 16) 2."},
      Row{"a wide triplet, then one of eighths", "C4:2/3 D4:2/3 E4:2/3 F4:1/3 G4:1/3 A4:1/3 B4:1",
          "3:2(4 4 4) 3:2(8 8 8) 4"},
      Row{"one of eighths, then a wide triplet", "C4:1/3 D4:1/3 E4:1/3 F4:1 G4:2/3 A4:2/3 B4:2/3",
          "3:2(8 8 8) 4 3:2(4 4 4)"},
      Row{"a rest in a triplet", "r:1/3 C4:2/3 D4:3", "3:2(r8 4) 2."},
  }));
  INFO(why);
  CHECK(text_of(written_rhythm(solo_from(melody))) == written);
}

TEST_CASE("other meters are grouped by their own beats") {
  const auto [meter, melody, written] = GENERATE(table<Meter, std::string, std::string>({
      std::tuple{Meter{3, 4}, "C4:3"s, "2."s},
      std::tuple{Meter{3, 4}, "C4:1 D4:2"s, "4 2"s},
      std::tuple{Meter{3, 4}, "C4:1 r:2"s, "4 r4 r4"s},
      std::tuple{Meter{6, 8}, "C4:3/2 D4:1 E4:1/2"s, "4. 4 8"s},
      std::tuple{Meter{6, 8}, "C4:3"s, "2."s},
      std::tuple{Meter{6, 8}, "C4:1 D4:1 E4:1"s, "4 8~8 4"s},
      std::tuple{Meter{6, 8}, "C4:1/2 r:1 D4:3/2"s, "8 r8 r8 4."s},
      std::tuple{Meter{6, 8}, "C4:3/8 D4:3/8 E4:3/8 F4:3/8 G4:3/2"s, "16. 32~16 16~32 16. 4."s},
      std::tuple{Meter{12, 8}, "C4:3 D4:3"s, "2. 2."s},
      std::tuple{Meter{2, 2}, "C4:4"s, "1"s},
      std::tuple{Meter{5, 4}, "C4:5"s, "1~4"s},
      std::tuple{Meter{7, 8}, "C4:2 D4:3/2"s, "2 4."s},
  }));
  INFO(to_string(meter) << " " << melody);
  CHECK(text_of(written_rhythm(solo_from(melody, meter))) == written);
}

TEST_CASE("a pickup is counted back from the bar line") {
  CHECK(text_of(written_rhythm(solo_from("C4:1/2 D4:1 E4:4", {}, -Beats(3, 2)))) == "8 4 | 1");
}

TEST_CASE("a bar without a note is silent as a whole") {
  CHECK(text_of(written_rhythm(solo_from("C4:4 r:4 D4:4"))) == "1 | silent | 1");
}

TEST_CASE("a note still sounding when the next is struck ends there") {
  Solo solo = solo_from("C4:1 D4:3");
  solo.notes[0].duration = Beats(2);
  CHECK(text_of(written_rhythm(solo)) == "4 2.");
}

TEST_CASE("times that no notation has are moved to the nearest thirty-second") {
  Solo solo = solo_from("C4:1 D4:3");
  solo.notes[0].duration = Beats(10, 37);
  const std::vector<WrittenBar> bars = written_rhythm(solo);
  CHECK(text_of(bars) == "16 r16 r8 2.");
}

TEST_CASE("whatever the line, every bar is filled and every note is struck once") {
  for (unsigned seed = 1; seed <= 20; ++seed) {
    const Solo solo = random_line(seed, 16).solo;
    std::vector<int> struck(solo.notes.size());
    for (const WrittenBar& bar : written_rhythm(solo)) {
      if (!bar.groups.empty()) CHECK(sum_of(bar) == bar.length);
      for (const WrittenGroup& group : bar.groups)
        for (const WrittenSymbol& symbol : group.symbols)
          if (symbol.note && symbol.struck) ++struck[*symbol.note];
    }
    for (std::size_t note = 0; note < struck.size(); ++note) {
      INFO("seed " << seed << ", note " << note);
      CHECK(struck[note] == (solo.notes[note].grace ? 0 : 1));
    }
  }
}
