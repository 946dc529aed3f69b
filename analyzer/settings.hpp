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

/// How much is worked out, each with all that stands before it: the labels and what the first page of a summary tells;
/// every figure; a sentence and the other readings of each note. What nobody looks at costs as much as what is shown.
enum class Detail : std::uint8_t { first_page, figures, reasons };

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
