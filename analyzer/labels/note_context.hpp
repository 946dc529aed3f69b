// Everything the labelling looks at around one note, worked out once. A chain is the run of notes
// between two long rests. A phrase end without one is no cut: the line may go on by step or repeat its note.
// Across a cut there is no neighbour, and a missing neighbour is never a step. Times are whole ticks, so
// that nothing is rounded and nothing divided.
#pragma once

#include "analyzer/analysis.hpp"
#include "analyzer/heard_line.hpp"

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <span>
#include <vector>

namespace insideline {

/// A motion between two notes of a chain.
struct Motion {
  int semitones = 0;
  bool step = false;              ///< one or two semitones
  bool augmented_second = false;  ///< three semitones that the source spells as a step: it passes, but does not lead
};

/// How a colour that is not a tone stands to its chord.
enum class Colour : std::uint8_t {
  listed,     ///< among the chord's tensions
  asked_for,  ///< b9 #9 #11 b13 over a dominant written `alt`
  altered,    ///< the same over a dominant whose symbol does not name them
  disputed,   ///< the thirteenth over a minor seventh chord
  blue,       ///< the minor third or seventh over a major chord, the flat fifth over a minor one
  avoided,    ///< a scale note a half step above a tone: the eleventh over a dominant, the b13 over a minor chord
  foreign     ///< any other pitch
};

/// A span in ticks; how many make a quarter is the solo's own affair.
using Ticks = std::int64_t;

struct NoteContext {
  std::size_t note = 0;  ///< index into Solo::notes
  int midi = 0;
  int pitch_class = 0;
  std::optional<Motion> in;   ///< from the last different pitch
  std::optional<Motion> out;  ///< to the next different pitch
  bool same_before = false;   ///< the note just before has this pitch
  bool same_after = false;
  bool returns = false;       ///< this pitch was heard two to four notes ago
  bool riff = false;          ///< this pitch is struck three times or more within eight notes to either side
  bool stacked = false;       ///< a third above a tone of the same chord, just before it
  bool crowns = false;        ///< stacked on a note that was reached by a third up itself
  bool blue = false;          ///< over a dominant, the minor third a half step under 3, the flat fifth beside 5 or 11
  bool phrase_start = false;  ///< the first of its phrase, or after a rest of at least half a beat
  bool phrase_end = false;    ///< the last of its phrase
  bool rest_after = false;    ///< a rest of at least half a beat, or the end of the chain, follows
  bool held = false;          ///< at least Settings::held_tension beats long
  bool two_beats = false;     ///< at least two beats long
  bool brief = false;         ///< shorter than half a beat
  bool longer_than_next = false;
  bool longer_than_before = false;
  bool on_beat = false;
  int weight = 0;                    ///< metrical weight of its onset
  int next_weight = 0;               ///< of the next different pitch; 0 without one
  bool from_below = false;           ///< in the bass register, or a sixth or more below both neighbours
  bool pickup = false;               ///< before bar 1 and its chord: heard against the chord it leads to
  std::optional<std::size_t> chord;  ///< sounding, or in a pickup the first one
  std::optional<std::size_t> next;   ///< the different chord that follows
  std::optional<std::size_t> previous;
  bool is_tone = false;  ///< of the sounding chord as it is played: a bare diminished triad has its seventh, a
                         ///< slash chord its bass
  bool is_tone_of_next = false;
  bool is_tone_of_previous = false;
  bool is_tension_of_next = false;
  bool is_root_of_next = false;
  PitchClassSet tones = 0;        ///< of the sounding chord, with what is_tone counts in
  int slips = 0;                  ///< semitones to the chord it plays with its neighbours: a side-slip; 0 for none
  std::optional<Colour> colour;   ///< over the sounding chord, where it is not a tone
  int above_root = 0;             ///< semitones above the root of the sounding chord, 0..11
  Ticks beat = 1;                 ///< the felt beat at its onset
  Ticks onset = 0;                ///< from the start of the first full bar
  Ticks duration = 0;             ///< as written
  Ticks length = 0;               ///< drawn out to the next note unless a rest of half a beat follows
  Ticks to_change = 0;            ///< from the onset to the change to `next`
  Ticks since_change = 0;         ///< from the change to `chord` to the onset
  bool sounds_into_next = false;  ///< still sounds when `next` has arrived
  bool sounds_mostly_over_next = false;  ///< twice as long over `next` as before it, or longer
  bool struck_again_on_next = false;
  bool pushes = false;                    ///< half a beat or less before `next`, and half a beat or longer into it
  std::optional<std::size_t> hangs_into;  ///< a chord it still sounds over, however many changes on, and is no tone of
};

/// A chord tone, or one of the next chord less than a beat before it.
inline bool stands(const NoteContext& note) {
  return note.is_tone || (note.is_tone_of_next && note.to_change < note.beat);
}

/// The notes of one chain in order; `solo.notes` without its grace notes.
using Chain = std::vector<NoteContext>;

/// Looks around each note and hands the chains on one by one, in order: a long solo never stands in memory as a whole.
void for_each_chain(const Solo& solo, const Harmony& harmony, std::span<const Phrase> phrases, const Settings& settings,
                    const std::function<void(const Chain&)>& use);

}  // namespace insideline
