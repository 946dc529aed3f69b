#include "io/audio/raw_notes.hpp"

#include <catch2/catch.hpp>

using insideline::io::joined;
using insideline::io::RawNote;

TEST_CASE("a scoop, a fall and a swell belong to their notes, a tongued note does not") {
  const RawNote scoop{100, 110, 58, 0.9F, 0.8F};
  const RawNote note{110, 150, 60, 0.0F, 0.9F};
  const RawNote fall{150, 158, 57, 0.0F, 0.5F};
  const RawNote swell{112, 150, 60, 0.8F, 0.9F};
  const RawNote again{150, 190, 60, 0.9F, 0.9F};
  SECTION("scoop") {
    const auto notes = joined(std::vector{scoop, note});
    REQUIRE(notes.size() == 1);
    CHECK(notes.front().begin == 100);
    CHECK(notes.front().midi == 60);
    CHECK(notes.front().attack == Approx(0.9F));
  }
  SECTION("fall") {
    const auto notes = joined(std::vector{note, fall});
    REQUIRE(notes.size() == 1);
    CHECK(notes.front().end == 158);
    CHECK(notes.front().midi == 60);
  }
  SECTION("swell") { CHECK(joined(std::vector{RawNote{100, 112, 60, 0.9F, 0.9F}, swell}).size() == 1); }
  SECTION("a reed that speaks an octave low at first") {
    const RawNote low{100, 120, 49, 0.9F, 0.8F};
    const auto notes = joined(std::vector{low, RawNote{120, 150, 61, 0.0F, 0.9F}});
    REQUIRE(notes.size() == 1);
    CHECK(notes.front().midi == 61);
    CHECK(notes.front().begin == 100);
    CHECK(joined(std::vector{low, RawNote{120, 150, 61, 0.9F, 0.9F}}).size() == 2);
    CHECK(joined(std::vector{low, RawNote{120, 150, 56, 0.0F, 0.9F}}).size() == 2);
  }
  SECTION("tongued again") { CHECK(joined(std::vector{note, again}).size() == 2); }
  SECTION("too short to be a note") { CHECK(joined(std::vector{RawNote{10, 14, 60, 0.9F, 0.9F}}).empty()); }
  SECTION("a short note with an attack of its own after it stays") {
    CHECK(joined(std::vector{scoop, RawNote{110, 150, 60, 0.9F, 0.9F}}).size() == 2);
  }
}
