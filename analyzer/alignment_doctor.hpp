// The alignment doctor: if the line fits the chart far better from another start bar, or
// transposed, the alignment in use is probably a slip. What is compared is the strict
// chord-tone share: each note against the chord that sounds at its onset.
#pragma once

#include "analyzer/alignment.hpp"
#include "analyzer/analysis.hpp"
#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <optional>

namespace insideline {

/// One of `start_bar` and `semitones` is there.
struct AlignmentAdvice {
  std::optional<int> start_bar;  ///< would fit better in place of the one in use; 1 .. bars of the form
  std::optional<int> semitones;  ///< the line moved by this much would fit better; -5 .. 6
  Share here;                    ///< chord tones of the notes over a chord, as things are
  Share there;                   ///< the same with the advice taken
};

/// Advice where another alignment fits far better; none where this one is as good, where the solo
/// is too short to tell (under 30 notes over chords), and for chords written over the score itself.
/// `changes` and `solo` must not disagree about the meter.
std::optional<AlignmentAdvice> better_alignment(const Changes& changes, const Solo& solo,
                                                const Alignment& alignment = {});

}  // namespace insideline
