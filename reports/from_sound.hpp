// What every report says of a line that was heard in a recording and not read.
#pragma once

#include <string>
#include <vector>

namespace insideline::reports {

/// Lateness on the mean that is no more than this is left out: the attacks of the instruments that were measured begin
/// to be heard up to so late (DEVELOPERS.md, "How well it listens").
constexpr double attack_ms = 60.0;

struct FromSound {
  int notes = 0;
  int unsure = 0;                     ///< of them
  std::vector<std::string> places{};  ///< of those, each once: "bar 3" (of the sheet), or "0:12" in the recording
};

/// "Heard from a recording: 3 of 122 notes are unsure (bar 3, bar 9) ..."
std::string from_sound_in_words(const FromSound& sound);

}  // namespace insideline::reports
