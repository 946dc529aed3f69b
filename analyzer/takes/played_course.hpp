// The course of a take through its sheet: how much of it was played, where the player broke off, and every note that
// was not as written.
#pragma once

#include "analyzer/measures/results.hpp"
#include "analyzer/takes/struck_notes.hpp"
#include "analyzer/takes/take_time.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace insideline {

/// Bars side by side, by the numbers that the page prints.
struct BarRun {
  std::string first;
  std::string last;
  friend bool operator==(const BarRun&, const BarRun&) = default;
};

struct Coverage {
  Share bars;                  ///< bars that have notes, and those of them in which one was struck
  std::vector<BarRun> silent;  ///< the others; bars that only rest are passed over
  std::vector<std::size_t>
      left;  ///< notes of the sheet (of those that count) that were left out of bars that were played
};
Coverage coverage_of(const LaidTake& laid, const TakeAlignment& alignment);

enum class Broken : std::uint8_t {
  began_again,  ///< went back
  left_out,     ///< went on further ahead
  stopped,      ///< came in late by a beat or more
  came_early    ///< came in early by a beat or more
};
struct Interruption {
  Broken how = Broken::stopped;
  std::string bar;        ///< of the last note before it
  std::string on_in;      ///< bar of the note that was played next
  double quarters = 0.0;  ///< lost (stopped) or saved (came early)
  std::size_t after = 0;  ///< attempts made before it
};
/// In order. Beginning the whole sheet again after its last bar is none.
std::vector<Interruption> interruptions_of(const LaidTake& laid, const TakeAlignment& alignment,
                                           const std::vector<TimeBreak>& breaks);

/// Whether `restart` leads from the last bar with notes to the first one: the sheet is played once more.
bool is_once_more(const LaidTake& laid, const Restart& restart);

/// A note that was not as written. Pitches are those that the sheet's player reads.
struct Mistake {
  std::string bar;
  Beats beat;                   ///< of the bar, 1 is the first
  std::optional<Pitch> wanted;  ///< none for a note that was added
  std::optional<Pitch> played;  ///< none for a missing one
  bool octave_off = false;
};
/// In the order of playing; notes in `left_out` come at their place on the page.
std::vector<Mistake> mistakes_of(const LaidTake& laid, const TakeAlignment& alignment,
                                 const std::vector<std::size_t>& left_out);

}  // namespace insideline
