// How a rhythm is written down: lengths split at bar lines and beats, ties, tuplets and
// rests, as a musician expects to read them. Of the rules: no length hides the middle of
// a 4/4 bar except one that starts on beat 1 or 2, a syncopation is written as one note
// where it lies in the middle of its group, rests never are. Source: E. Gould, Behind
// Bars (2011), "Grouping within the bar" and "Tuplets"; the choice among equally good ways is ours.
#pragma once

#include "analyzer/model/beats.hpp"
#include "analyzer/model/solo.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace insideline {

/// A note value: divisor 8 with one dot is a dotted eighth.
struct NoteValue {
  int divisor = 4;  ///< 1, 2, 4 ... 64
  int dots = 0;     ///< 0 or 1
  friend bool operator==(const NoteValue&, const NoteValue&) = default;
};
Beats length_of(const NoteValue& value);

/// One note head or one rest.
struct WrittenSymbol {
  std::optional<std::size_t> note;  ///< into Solo::notes; none is a rest
  NoteValue value;
  bool struck = true;                          ///< false: tied from the symbol before
  bool tied = false;                           ///< to the next symbol of the same note
  std::vector<std::size_t> grace_notes;        ///< before it, in order
  std::vector<std::size_t> grace_notes_after;  ///< that lead nowhere: the solo ends
};

/// Symbols under one number: 3 in the time of 2. One in the time of one is no tuplet.
struct WrittenGroup {
  int notes = 1;
  int in_time_of = 1;
  std::vector<WrittenSymbol> symbols;
};

struct WrittenBar {
  std::size_t bar = 0;               ///< into Solo::bars
  Beats length;                      ///< as it is written: that of the bar, rounded up to a thirty-second
  std::vector<WrittenGroup> groups;  ///< empty: the whole bar is silent
};

/// All bars of `solo`. A note that is still sounding when the next is struck ends there;
/// times that no notation has are moved by less than a thirty-second.
std::vector<WrittenBar> written_rhythm(const Solo& solo);

}  // namespace insideline
