// A side-slip: a group of notes that belongs to the chord beside the one that sounds, mostly a half step above or
// below, is one event and not so many wrong notes (jazz pedagogy; the term is common practice, no source). The only
// place that tells what a side-slip is.
#pragma once

#include "analyzer/labels/note_context.hpp"
#include "analyzer/model/chord.hpp"

#include <string>

namespace insideline {

/// Marks every note of a side-slip with the semitones to the chord that is played, in NoteContext::slips. A run of
/// three notes and more, of at least three different names, over one chord: all are tones of that chord moved a half
/// step, and none a tone of it. Moved by more, the two chords share tones and colours; then it takes four notes, three
/// of them and more than half neither tones nor colours, the first and the last among these. The shortest way goes
/// first.
void mark_side_slips(Chain& chain);

/// The chord `semitones` above `chord`, below if negative; from -5 to 6.
Chord chord_aside(const Chord& chord, int semitones);

/// "a half step above".
std::string way_aside(int semitones);

}  // namespace insideline
