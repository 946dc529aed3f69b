// The alignment doctor: where the line fits the chart better at another place, the one in use is probably a slip. Tried
// are other bars, other beats, the twelve transpositions, and a bar that is missing in the form or one too many.
#pragma once

#include "analyzer/alignment.hpp"
#include "analyzer/analysis.hpp"
#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <optional>

namespace insideline {

/// A chart with a bar too few or too many. The place is known only as far as the chords tell it.
struct FormAdvice {
  int bar = 1;    ///< of the chart as it should be (missing), or as it is (too many)
  int first = 1;  ///< it is one of `first` .. `last`
  int last = 1;
  bool missing = true;
};

/// One of the first four is there.
struct AlignmentAdvice {
  std::optional<int> start_bar;  ///< would fit better in place of the one in use; of all in step, the nearest to 1
  std::optional<Beats>
      beats_later;               ///< the chart moved by this much: a pickup that was taken for a bar, or the reverse
  std::optional<int> semitones;  ///< the line moved by this much would fit better; -5 .. 6
  std::optional<FormAdvice> form;
  Share here;              ///< chord tones of the notes over a chord, as things are
  Share there;             ///< the same with the advice taken
  int places = 0;          ///< so many were tried
  double by_chance = 1.0;  ///< how often a line without a tie to the chart fits one of so many places as well
};

/// Advice where another place fits clearly better; none where this one is as good, where the solo
/// is too short to tell (under 30 notes over chords), and for chords written over the score itself.
/// `changes` and `solo` must not disagree about the meter.
std::optional<AlignmentAdvice> better_alignment(const Changes& changes, const Solo& solo,
                                                const Alignment& alignment = {});

/// True where the chart goes round and its bars are of one length, so that there are other places.
bool has_other_places(const Changes& changes, const Solo& solo);

}  // namespace insideline
