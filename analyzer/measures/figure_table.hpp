// The figures that solos are compared by: one row each.
#pragma once

#include "analyzer/measures/bar_amounts.hpp"

#include <cstdint>
#include <span>

namespace insideline {

enum class FigureGroup : std::uint8_t { chord_tones, degrees, other_notes, arpeggios, connections, guide_tones, line };

/// What a figure is counted in. A share is part / whole, of the things named.
enum class FigureUnit : std::uint8_t {
  notes,        ///< share of notes
  time,         ///< share of quarter notes
  arpeggios,    ///< share of arpeggios
  connections,  ///< share of changes of chord
  chords,       ///< share of chords
  phrases,      ///< share of phrases
  points,       ///< a share above or below another
  per_bar,      ///< number to a bar
  in_notes,     ///< number of notes
  in_beats,     ///< quarter notes
  in_semitones,
  in_bits
};

/// True where the figure is a share of things that are counted one by one.
bool is_share_of_counted(FigureUnit unit);
/// True where the figure is said in percent.
bool is_share(FigureUnit unit);

/// A main figure gets a sentence; a detail of one is told beside it.
enum class FigureRank : std::uint8_t { main, detail };

struct FigureRow {
  const char* key;   ///< in files: "chord_tones_on_beat"
  const char* name;  ///< to a musician: "chord tones on the beat"
  const char* more;  ///< what a player with clearly more of it does
  const char* less;
  const char* meaning;  ///< one sentence for whoever asks what it is
  FigureGroup group;
  FigureRank rank;
  FigureUnit unit;
  BarSeries (*by_bar)(const Material& material);
};

/// In the order of the groups.
std::span<const FigureRow> figure_rows();

/// "Chord tones", "Arpeggios" ...
const char* heading(FigureGroup group);

}  // namespace insideline
