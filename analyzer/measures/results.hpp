// The figures that the measures give. No number without its count: a share keeps
// what it counts and of how many. Grace notes and notes under N.C. count nowhere here.
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/pitch.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace insideline {

/// A share with the counts it comes from.
struct Share {
  int count = 0;
  int of = 0;
  friend bool operator==(const Share&, const Share&) = default;
};
/// count / of; none where `of` is 0.
std::optional<double> ratio(const Share& share);

/// What a group of notes is made of.
struct Density {
  int notes = 0;
  int chord_tones = 0;  ///< these four as heard; they add up to `notes`
  int tensions = 0;
  int non_chord_tones = 0;
  int outside = 0;
  Share strict;                      ///< chord tones of the chord at the onset, of the notes that have one
  double duration = 0.0;             ///< quarter notes, all notes
  double chord_tone_duration = 0.0;  ///< quarter notes, chord tones as heard
};
/// Chord tones as heard, of all notes of the group.
Share chord_tone_share(const Density& density);

struct DegreeCount {
  Degree degree;  ///< against the chord the note is heard against
  int count = 0;
  int on_beat = 0;        ///< of them on a beat
  double duration = 0.0;  ///< quarter notes
};

struct QualityDensity {
  ChordQuality quality = ChordQuality::other;
  Density density;
};

/// The same notes sorted in several ways.
struct Densities {
  Density all;
  Density on_beat;
  Density off_beat;
  Density on_strong_beats;   ///< 1 and 3 in 4/4; the first beat, and the middle one where beats pair up
  Density on_chord_changes;  ///< struck at the moment the chord changes
  // From here on: from Detail::figures on.
  std::vector<DegreeCount> by_degree;      ///< in order of degree
  std::vector<QualityDensity> by_quality;  ///< qualities in use, in the order of ChordQuality
  std::vector<Density> by_chorus;          ///< the first is chorus 1
  std::vector<Density> by_phrase;          ///< parallel to Analysis::phrases
};

/// How a phrase runs, from its first note, the mean of its middle and its last.
/// Source of the method: Huron, The Melodic Arch in Western Folksongs, Computing in
/// Musicology 10 (1996).
enum class Contour : std::uint8_t { rising, falling, arch, bowl, level };

/// One phrase in figures; runs parallel to Analysis::phrases.
struct PhraseFigures {
  int first_bar = 1;
  int last_bar = 1;
  Pitch lowest;
  Pitch highest;
  Contour contour = Contour::level;
  Density density;
  Share arpeggio_share;
  std::optional<Degree> first_degree;
  std::optional<Degree> last_degree;
};

/// The sections of one name, "A", together.
struct SectionFigures {
  std::string name;
  int times = 0;  ///< how often it comes, a part of one counted as one
  int bars = 0;
  Density density{};
  Share arpeggio_share{};
  Share nearest_taken_share{};  ///< of the connections into its chords with a note on both sides
};

/// Whether the line gives one chord its guide tones.
struct ChordOutline {
  std::size_t chord = 0;               ///< where the stretch of this chord begins
  int notes = 0;                       ///< heard against it
  std::optional<std::size_t> third;    ///< first note that is its third; a sus chord has none
  std::optional<std::size_t> seventh;  ///< first note that is its seventh (sixth in a sixth chord)
  bool has_seventh = false;            ///< the chord has one to give
  bool has_third = false;
  std::optional<Beats> first_guide_tone;  ///< its onset, from the onset of the chord; an anticipation is negative
};

struct Outline {
  std::vector<ChordOutline> chords;  ///< one a stretch, those without a note included
  Share thirds;                      ///< chords that get their third, of those that have one and a note
  Share sevenths;
  Share both;                                   ///< of the chords that have both and a note
  std::optional<Beats> usual_first_guide_tone;  ///< the median over the chords that get one
};

/// A test of the line against the same line over other changes.
struct Chance {
  int shifts = 0;                 ///< different alignments tried, the real one not among them
  double actual = 0.0;            ///< the chord-tone share, strict, of the real alignment
  std::optional<double> mean;     ///< over the shifts; none without any
  std::optional<double> p_value;  ///< (m + 1) / (shifts + 1), m = shifts at least as high as the real one
  std::vector<double> values;     ///< one a shift, in order of the shift
};

/// How well the notes of one chord, alone, tell which chord it is.
struct HeardChord {
  std::size_t chord = 0;  ///< where the stretch begins
  int notes = 0;          ///< > 0
  int rank = 1;           ///< 1 = no other chord fits these notes better
  double bits = 0.0;      ///< won over a uniform guess; below 0 where the notes mislead
};

struct HeardHarmony {
  int candidates = 0;                            ///< different sets of tones on 12 roots
  std::vector<HeardChord> chords;                ///< one a stretch with notes
  double bits_per_chord = 0.0;                   ///< mean; 0 where there is no chord
  Share first_rank;                              ///< chords that no other fits better
  std::vector<double> bits_per_chord_by_chorus;  ///< 0 where a chorus has no notes
};

}  // namespace insideline
