#include "analyzer/written_out_form.hpp"

#include "analyzer/harmony/chord_symbol.hpp"

#include <catch2/catch.hpp>

#include <optional>
#include <sstream>
#include <string>

using insideline::Beats;
using insideline::Harmony;
using insideline::Solo;
using insideline::written_out_form;

namespace {

constexpr auto blues = "Eb7 Ab7 Eb7 Eb7 Ab7 Adim7 Eb7 C7 Fm7 Bb7 ";

/// One chord a bar, written over as many bars; "-" is no chord.
std::optional<int> form_of(const std::string& chords) {
  Solo solo;
  Harmony harmony;
  std::istringstream words(chords);
  int bar = 0;
  for (std::string word; words >> word; ++bar) {
    const Beats onset(4 * bar);
    solo.bars.push_back({.number = bar + 1, .onset = onset, .length = 4, .meter = {}});
    if (word == "-") continue;
    harmony.chords.push_back(
        {.chord = insideline::parse_chord_symbol(word).value().value(), .onset = onset, .duration = 4, .bar = bar + 1});
  }
  return written_out_form(harmony, solo);
}

std::string twice(const std::string& chords) { return chords + chords; }

}  // namespace

TEST_CASE("a blues that is written out twice has a form of twelve bars, also with another turn-around or an ending") {
  CHECK(form_of(twice(std::string(blues) + "Eb7 Bb7 ")) == 12);
  CHECK(form_of(std::string(blues) + "Eb7 Bb7 " + blues + "Eb7 Eb7") == 12);
  CHECK(form_of(twice(std::string(blues) + "Eb7 Bb7 ") + "Eb7") == 12);
}

TEST_CASE("a form of two parts is not cut into its parts") {
  const std::string part_a = "C Am7 Dm7 G7 Em7 A7 Dm7 G7 ";
  const std::string bridge = "E7 E7 A7 A7 D7 D7 G7 G7 ";
  CHECK(form_of(twice(part_a + part_a + bridge + part_a)) == 32);
  CHECK(form_of(part_a + part_a + bridge + part_a) == std::nullopt);
}

TEST_CASE("one chorus, a vamp, or chords that differ inside the chorus are no written-out form") {
  CHECK(form_of(std::string(blues) + "Eb7 Bb7") == std::nullopt);
  CHECK(form_of(twice(twice(twice("Dm7 G7 Dm7 G7 ")))) == std::nullopt);
  CHECK(form_of(std::string(blues) + "Eb7 Bb7 Eb7 Db7 Eb7 Eb7 Ab7 Adim7 Eb7 C7 Fm7 Bb7 Eb7 Bb7") == std::nullopt);
  CHECK(form_of("- - -") == std::nullopt);
}
