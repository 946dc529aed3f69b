// What a practice sheet is asked for: which figures, in which rhythm, within which range. Values only.
#pragma once

#include "analyzer/analysis.hpp"
#include "analyzer/drills/instruments.hpp"
#include "analyzer/model/pitch.hpp"

#include <cstdint>
#include <map>
#include <optional>
#include <vector>

namespace insideline {

enum class DrillKind : std::uint8_t {
  nearest_tones,  ///< a line through the chords that moves to the nearest tone of each next one
  common_tones,   ///< the same, but a tone that both chords have is sounded again
  arpeggios,      ///< each chord as one arpeggio
  cells,          ///< a few tones, the same of every chord
  guide_tones,    ///< thirds and sevenths in long tones, led by the least motion
  enclosures,     ///< a line that closes in on the third of each next chord from both sides
  descents        ///< each chord straight down from above, into the nearest tone of the next
};

enum class Way : std::uint8_t { up, down };

enum class DrillRhythm : std::uint8_t {
  quarters,
  eighths,
  triplets,
  off_beat,        ///< eighths that start half a beat late
  three_over_four  ///< quarter and eighth in turn, three eighths over and over across the bar lines
};

/// A tone by its number: 3 is each chord's own third. With an accidental, as the player typed it.
struct CellTone {
  Degree asked;
  bool exact = false;  ///< an accidental was typed
  friend bool operator==(const CellTone&, const CellTone&) = default;
};

struct DrillCell {
  std::vector<CellTone> tones;  ///< at least two, neighbours differ
  std::optional<Way> way;       ///< none: up or down as the line goes
};

struct DrillSettings {
  DrillKind kind = DrillKind::nearest_tones;
  Way way = Way::up;                   ///< of arpeggios
  std::optional<Inversion> inversion;  ///< of arpeggios: by their lowest tone
  bool every_inversion = false;        ///< root position in the first chorus, first inversion in the second ...
  std::optional<int> from_tone;        ///< of arpeggios: the number of the tone that each begins on
  std::vector<DrillCell> cells;        ///< the first is the usual one; a later one costs more
  DrillRhythm rhythm = DrillRhythm::eighths;
  std::optional<int> tones_a_bar;  ///< of lines; > 0
  PitchRange range;                ///< sounding; at least an octave
  int voices = 1;                  ///< of guide tones: 1 or 2
  int choruses = 1;
  unsigned seed = 0;  ///< decides among equally good lines
  /// How a model player connects the chords: shares from 0 to 1. Empty: no model.
  std::map<ConnectionKind, double> connection_habits;
};

/// Whether the sheet is one line through the changes, not a figure on each chord.
inline bool is_line(const DrillSettings& settings) {
  return settings.kind == DrillKind::nearest_tones || settings.kind == DrillKind::common_tones;
}

/// Whether every change is led to the nearest tone of the next chord.
inline bool takes_nearest(const DrillSettings& settings) {
  return is_line(settings) || settings.kind == DrillKind::descents;
}

}  // namespace insideline
