// Played lines whose written form is known, made at random in two ways that share no assumption, so that a reading of
// rhythm cannot be fitted to one of them. Seeded, so that a take can be played again.
#pragma once

#include "io/midi/beat_cells.hpp"

#include <cstdint>
#include <vector>

namespace insideline::tests {

struct WrittenPlace {
  std::int64_t onset = 0;  ///< in units of beat_cells.hpp
  bool grace = false;
};

struct GeneratedTake {
  std::vector<io::TimedNote> notes;
  std::vector<io::BeatCell> cells;
  std::vector<WrittenPlace> written;  ///< one for each note
};

/// A page of eighths, triplets, sixteenths, fives and sevens, played by somebody who lies up to .12 of a beat behind,
/// now more, now less; who swings 2.5 to 1 at 60 beats a minute and hardly at 280; who is late with a pair now and
/// then; with 10 to 25 ms of spread, grace notes, and beats that drift.
GeneratedTake take_of_a_page(double tempo_bpm, unsigned seed);

/// Onsets first: behind the beat by milliseconds and not by shares of it, with long tails, another swing in each beat;
/// then written down beat by beat as literally as they lie, so that a very late pair becomes a second and fourth
/// sixteenth.
GeneratedTake take_written_literally(double tempo_bpm, unsigned seed);

/// How many notes stand within a sixth of a beat of where they are written, grace notes left out.
struct WithinASixth {
  int notes = 0;
  int program = 0;
  int raw = 0;              ///< as played
  int raw_less_median = 0;  ///< moved by the median lateness, which only who knows the page can tell
  int twelfths = 0;         ///< and rounded to twelfths of a beat

  void operator+=(const WithinASixth& other);
};

WithinASixth within_a_sixth(const GeneratedTake& take);

}  // namespace insideline::tests
