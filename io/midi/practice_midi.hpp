// A practice line as a MIDI file to play with: clicks before it or throughout, then the line, with the chords sounding
// under it, at one tempo or at several in a row. The line is on the first track of notes, so that it is what a reader
// takes for the solo.
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace insideline::io {

enum class ChordSound : std::uint8_t {
  held,    ///< as long as they last
  comped,  ///< struck on the beat they come on and a beat and a half later, again in every bar; the bass is held
  none
};

enum class Clicks : std::uint8_t { before, throughout };

struct PracticeMidiOptions {
  int count_in_bars = 1;  ///< >= 0; before every time through
  Clicks clicks = Clicks::before;
  ChordSound chords = ChordSound::held;
  /// How much longer the first of two eighths is than the second, in hundredths: 200 is two to one. None: even. What
  /// divides a beat in three stays where it is.
  std::optional<int> swing_hundredths{};
  std::vector<double> tempos_bpm{};  ///< one time through for each; empty: once, as the solo says
};

/// `solo.bars` is not empty.
std::string write_practice_midi(const Solo& solo, const Harmony& harmony, const PracticeMidiOptions& options = {});

/// Where `place` falls when eighths swing: the half of a quarter note moves, what lies before and behind it with it,
/// and thirds and sixths stay.
Beats swung(const Beats& place, int hundredths);

}  // namespace insideline::io
