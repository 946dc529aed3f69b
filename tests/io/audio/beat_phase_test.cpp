#include "io/audio/beat_phase.hpp"

#include <catch2/catch.hpp>

#include <cmath>
#include <vector>

using insideline::io::beat_phase;
using insideline::io::BeatPhase;
using insideline::io::HeardNote;

namespace {

constexpr double quarter = 0.5;

/// Notes at these quarters behind a beat, which is at 2.2 s.
std::vector<HeardNote> notes_at(const std::vector<double>& quarters) {
  std::vector<HeardNote> notes;
  for (const double place : quarters) notes.push_back({2.2 + quarter * place, 2.2 + quarter * (place + 0.3), 60, 1.0F});
  return notes;
}

/// In quarters, -1/2 to 1/2.
double off_the_beat(double seconds) { return std::remainder((seconds - 2.2) / quarter, 1.0); }

/// Eighths, the second of each pair `off_beat` quarters behind the beat.
std::vector<double> eighths(int first, int last, double off_beat) {
  std::vector<double> places;
  for (int i = first; i < last; ++i) places.push_back(std::floor(i / 2.0) + (i % 2 == 0 ? 0.0 : off_beat));
  return places;
}

}  // namespace

TEST_CASE("swung eighths tell where the beat is, also of a line that begins off it") {
  for (const int first : {0, 1}) {
    const BeatPhase phase = beat_phase(notes_at(eighths(first, 33, 2.0 / 3.0)), quarter);
    CAPTURE(first);
    CHECK(off_the_beat(phase.likelier) == Approx(0.0).margin(0.06));
    CHECK(phase.lead > 0.5);
  }
}

TEST_CASE("long notes tell where the beat is") {
  const BeatPhase phase = beat_phase(notes_at({0.5, 1, 2, 3, 3.5, 4, 6, 7, 8, 8.5, 9, 10, 12}), quarter);
  CHECK(off_the_beat(phase.likelier) == Approx(0.0).margin(0.03));
  CHECK(phase.lead > 0.15);
}

TEST_CASE("even eighths leave two places, half a beat apart, that are as likely") {
  for (const int first : {0, 1}) {
    const BeatPhase phase = beat_phase(notes_at(eighths(first, 33, 0.5)), quarter);
    CAPTURE(first);
    CHECK(std::abs(std::remainder((phase.other - phase.likelier) / quarter, 1.0)) == Approx(0.5).margin(0.03));
    CHECK(phase.lead < 0.08);
    CHECK(std::abs(std::remainder(off_the_beat(phase.likelier), 0.5)) < 0.03);
  }
}
