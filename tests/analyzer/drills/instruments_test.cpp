#include "analyzer/drills/instruments.hpp"

#include <catch2/catch.hpp>

#include <optional>
#include <set>
#include <string>
#include <tuple>

using insideline::Instrument;
using insideline::instrument_named;
using insideline::instruments;
using insideline::Interval;
using insideline::parse_pitch_range;
using insideline::PitchRange;
using insideline::sounding_range;
using insideline::usual_interval;
using insideline::written_range;

TEST_CASE("an instrument sounds where its transposition puts it") {
  auto [name, written, sounding] = GENERATE(table<std::string, std::string, std::string>({
      {"tenor-sax", "Bb3 to F6", "Ab2 to Eb5"},
      {"Alto Sax", "Bb3 to F6", "Db3 to Ab5"},
      {"trumpet", "F#3 to C6", "E3 to Bb5"},
      {"guitar", "E3 to C6", "E2 to C5"},
      {"flute", "C4 to C7", "C4 to C7"},
  }));
  const auto instrument = instrument_named(name);
  REQUIRE(instrument);
  CHECK(to_string(written_range(*instrument)) == written);
  CHECK(to_string(sounding_range(*instrument)) == sounding);
}

TEST_CASE("every instrument has a name of its own, at least an octave, and a plain transposition") {
  std::set<std::string_view> names;
  for (const Instrument& instrument : instruments()) {
    INFO(instrument.name);
    CHECK(names.insert(instrument.name).second);
    const PitchRange range = sounding_range(instrument);
    CHECK(range.highest - range.lowest >= 12);
    CHECK(range.lowest >= 21);  // the lowest A of a piano
    CHECK(instrument.sounding_minus_written == usual_interval(instrument.sounding_minus_written.semitones));
  }
  CHECK_FALSE(instrument_named("kazoo"));
}

TEST_CASE("a range is two notes, low before high") {
  auto [text, range] = GENERATE(table<std::string, std::optional<PitchRange>>({
      {"F3-C5", PitchRange{53, 72}},
      {"Bb2-F#4", PitchRange{46, 66}},
      {"C-1-C4", PitchRange{0, 60}},
      {"C5-F3", std::nullopt},
      {"C4-C4", std::nullopt},
      {"F3", std::nullopt},
      {"F3-", std::nullopt},
      {"H3-C5", std::nullopt},
      {"C4-C12", std::nullopt},
  }));
  CHECK(parse_pitch_range(text) == range);
}
