#include "tests/io/midi/midi_shorthand.hpp"
#include "tests/support/folders.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <fstream>
#include <iterator>
#include <string>

using insideline::io::Damage;
using insideline::io::ReadError;
using insideline::io::ReadOptions;

TEST_CASE("inputs found to break the MIDI reader are read or refused") {
  int replayed = 0;
  for (const auto& entry : std::filesystem::directory_iterator(INSIDELINE_TESTS "/io/crashes/midi")) {
    CAPTURE(entry.path());
    std::ifstream file(entry.path(), std::ios::binary);
    const std::string bytes{std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
    for (const Damage damage : {Damage::refused, Damage::salvaged}) {
      ReadOptions options;
      options.damage = damage;
      try {
        const auto read = insideline::tests::read_midi(bytes, options);
        CHECK_FALSE(read.solo.notes.empty());
      } catch (const ReadError& error) {
        CHECK(std::string(error.what()).starts_with("take.mid"));
      }
    }
    ++replayed;
  }
  CHECK(replayed > 0);
}
