// A solo and its changes in the pitch that a player reads: every note, chord and key moved by one interval, and spelled
// as it is written for that player. An analysis of what comes out says the same of every note as one of the solo as it
// sounds, in the other names: nothing in the labels hangs on where a line lies.
#pragma once

#include "analyzer/analysis.hpp"
#include "analyzer/drills/instruments.hpp"

#include <optional>
#include <span>

namespace insideline {

enum class Respelling : std::uint8_t {
  none,  ///< moved note by note, as a part is that somebody wrote
  usual  ///< F minor and not E sharp minor, a G in place of an F double sharp
};

struct ReadingPitch {
  Interval above_sounding;  ///< a tenor saxophone reads {8, 14}
  Respelling respelling = Respelling::none;
  std::optional<Key> key = std::nullopt;  ///< as it sounds, where it is known: chords are spelled near to it
};

/// A line as it is read. `Note::written` stays what the source has.
struct ReadLine {
  Solo solo;
  Harmony harmony;
};

/// `labels` are those of the line as it sounds, and run parallel to its notes.
ReadLine read_in(const ReadingPitch& pitch, const Solo& solo, const Harmony& harmony,
                 std::span<const NoteLabel> labels);

/// The interval spelled so that `key` moves to one of at most six signs; where no key is known, so that the roots of
/// the chords are the plainest: an alto player reads B major in A flat and not in G sharp.
Interval readable_interval(const Interval& by, const std::optional<Key>& key, const Harmony& harmony);

/// How many notes of the line, moved by so many semitones, lie outside the range; grace notes are left out.
int notes_outside(const Solo& solo, int moved_by, const PitchRange& range);

/// The octaves by which the moved line is to be moved again so that fewest of its notes lie outside the range; where
/// that is equal, as few as possible.
int octaves_into_range(const Solo& solo, int moved_by, const PitchRange& range);

}  // namespace insideline
