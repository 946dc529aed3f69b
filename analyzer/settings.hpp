// What a user may want otherwise, in one place.
#pragma once

#include "analyzer/model/beats.hpp"
#include "analyzer/pin.hpp"

#include <cstdint>
#include <vector>

namespace insideline {

/// Which eighths carry weight. Swung eighths lean harder on the beat than straight ones.
enum class Feel : std::uint8_t { swing, straight };

/// Strict: every note is heard against the chord that sounds at its onset.
enum class Hearing : std::uint8_t { as_heard, strict };

/// What is worked out beside the labels: sentences and other readings cost more than the labels, and a summary shows
/// none.
enum class Detail : std::uint8_t { labels, reasons };

struct Settings {
  Feel feel = Feel::swing;
  Hearing hearing = Hearing::as_heard;
  Beats held_tension = Beats(1);  ///< in felt beats: a tension of at least this length counts as held
  Beats phrase_gap =
      Beats(1);  ///< in felt beats: a rest of at least this length is a wall, three quarters of it a breath
  Detail detail = Detail::reasons;
  std::vector<Pin> pins{};  ///< what a listener says of single notes; one that cannot be (`pin_faults`) is left out
};

}  // namespace insideline
