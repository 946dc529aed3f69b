#include "tests/io/musicxml/score_shorthand.hpp"
#include "tests/support/folders.hpp"

#include <catch2/catch.hpp>

#include <filesystem>
#include <string>

TEST_CASE("inputs found or made to break the MusicXML reader are read or refused") {
  int replayed = 0;
  for (const auto& entry :
       std::filesystem::directory_iterator(std::filesystem::path(INSIDELINE_TESTS) / "io/crashes/musicxml")) {
    CAPTURE(entry.path());
    const std::string bytes = insideline::tests::test_file("io/crashes/musicxml/" + entry.path().filename().string());
    for (const auto road_map : {insideline::io::RoadMap::played, insideline::io::RoadMap::as_written}) {
      try {
        const auto score = insideline::io::parse_musicxml(bytes, "crash.xml", {.road_map = road_map});
        CHECK_FALSE(score.solo.bars.empty());
      } catch (const insideline::io::ReadError& error) {
        CHECK(std::string(error.what()).starts_with("crash.xml"));
      }
    }
    ++replayed;
  }
  CHECK(replayed > 0);
}
