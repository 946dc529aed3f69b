// Everything the labelling looks at around one note, worked out once. A chain is
// the run of notes between two cuts: a phrase end or a long rest. Across a cut
// there is no neighbour, and a missing neighbour is never a step.
#pragma once

#include "analyzer/analysis.hpp"

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
  bool augmented_second = false;  ///< three semitones spelled as a step: it passes, but it does not lead
};

/// How a colour that is not a tone stands to its chord.
enum class Colour : std::uint8_t {
  listed,   ///< among the chord's tensions
  altered,  ///< b9 #9 #11 b13 over a dominant whose symbol does not name it
  disputed  ///< the thirteenth over a minor seventh chord
};

struct NoteContext {
  std::size_t note = 0;  ///< index into Solo::notes
  int midi = 0;
  int pitch_class = 0;
  std::optional<Motion> in;   ///< from the last different pitch
  std::optional<Motion> out;  ///< to the next different pitch
  bool same_before = false;   ///< the note just before has this pitch
  bool same_after = false;
  bool stacked = false;     ///< a third above a tone of the same chord, just before it
  bool crowns = false;      ///< stacked on a note that was reached by a third up itself
  bool blue = false;        ///< over a dominant, the minor third a half step under 3, the flat fifth beside 5 or 11
  bool rest_after = false;  ///< a rest of at least half a beat, or the end of the chain, follows
  bool held = false;        ///< at least Settings::held_tension beats long
  bool longer_than_next = false;
  bool longer_than_before = false;
  bool on_beat = false;
  int weight = 0;                    ///< metrical weight of its onset
  int next_weight = 0;               ///< of the next different pitch; 0 without one
  bool from_below = false;           ///< in the bass register, or a sixth or more below both neighbours
  bool pickup = false;               ///< before the first chord: heard against the chord it leads to
  std::optional<std::size_t> chord;  ///< sounding, or in a pickup the first one
  std::optional<std::size_t> next;   ///< the different chord that follows
  std::optional<std::size_t> previous;
  bool is_tone = false;  ///< of the sounding chord
  bool is_tone_of_next = false;
  bool is_tone_of_previous = false;
  bool is_tension_of_next = false;
  std::optional<Colour> colour;   ///< over the sounding chord, where it is not a tone
  Beats beat;                     ///< the felt beat at its onset, in quarters
  Beats to_change;                ///< in felt beats, from the onset to the change to `next`
  Beats since_change;             ///< in felt beats, from the change to `chord` to the onset
  bool sounds_into_next = false;  ///< still sounds when `next` has arrived
  bool struck_again_on_next = false;
};

/// The notes of one chain in order; `solo.notes` without its grace notes.
using Chain = std::vector<NoteContext>;

/// Cuts the line at phrase ends and at rests of `settings.phrase_gap`, looks around each note, and hands the chains on
/// one by one, in order: a long solo never stands in memory as a whole.
void for_each_chain(const Solo& solo, const Harmony& harmony, std::span<const Phrase> phrases, const Settings& settings,
                    const std::function<void(const Chain&)>& use);

}  // namespace insideline
