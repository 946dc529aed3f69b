// The figures that may stand over one chord: every way to fill its places by the rules of the sheet, within the
// range. The search in best_figures.hpp chooses one of them for each segment.
#pragma once

#include "analyzer/drills/drill_rhythm.hpp"
#include "analyzer/drills/drill_settings.hpp"
#include "analyzer/model/chord.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

namespace insideline {

/// A run of notes over one chord. +1 is up, -1 down, 0 where a single note has no direction.
struct DrillFigure {
  std::size_t begin = 0;  ///< into DrillFigures::midi
  std::size_t size = 0;   ///< none: the segment stays silent
  int first = 0;          ///< MIDI numbers
  int last = 0;
  int first_way = 0;
  int last_way = 0;
  int shape = 0;  ///< figures of one shape sound alike
  int cost = 0;   ///< its own, without what leads to it
};

struct DrillFigures {
  std::vector<DrillFigure> figures;  ///< never empty
  std::vector<int> midi;
  bool has_all_tones = true;  ///< false: an arpeggio with fewer tones than the chord has, as there is no room
  bool as_asked = true;       ///< false: the chord or the range has no such figure, and the nearest thing is taken

  [[nodiscard]] std::span<const int> notes_of(const DrillFigure& figure) const {
    return std::span(midi).subspan(figure.begin, figure.size);
  }
};

/// The chord's own tone with a number: 3 is its third, or the fourth of a sus chord; 7 its seventh, or the sixth of a
/// sixth chord; 9, 11 and 13 may be tensions. None where it has none.
std::optional<Degree> own_tone(const Chord& chord, int number);

/// The tones of an arpeggio: root, third, fifth, seventh and what stands for them.
std::vector<Degree> arpeggio_tones(const Chord& chord);

/// Third and seventh, as far as they are among these.
std::vector<Degree> guides_in_arpeggio(const Chord& chord);

/// How many notes a figure of this sheet has over the chord; 0 is a line that fills the time.
std::size_t wanted_tones(const Chord& chord, const DrillSettings& settings);

/// The inversion that the sheet asks for in a chorus, if it asks for one.
std::optional<Inversion> inversion_in(const DrillSettings& settings, int chorus);

/// The tones of a chord in a range, upwards.
struct Rung {
  int midi = 0;
  Degree degree;
};
std::vector<Rung> ladder_of(const Chord& chord, std::span<const Degree> tones, const PitchRange& range);

/// Whether each of `tones` is among the rungs.
bool has_all(std::span<const Rung> rungs, std::span<const Degree> tones);

/// Adds the notes at the end of `set.midi`, from `begin` on, as a figure; it costs `cost` and what its notes cost.
void add_figure(DrillFigures& set, std::size_t begin, int shape, int cost, const PitchRange& range);

/// From rung `start` onwards, turning at the ends of the ladder and, unless 0, before note `turn`.
struct RungLine {
  std::size_t start = 0;
  int way = 1;
  std::size_t turn = 0;
  std::size_t count = 1;  ///< notes
};
/// The notes of the line at the end of `midi`, and how often it turns; none where its second note leaves the ladder.
std::optional<int> append_line(std::vector<int>& midi, std::span<const Rung> ladder, const RungLine& line);

/// The sound of a figure that begins on `first` and goes `way` (> 0 is up).
int shape_of(const Degree& first, int way);

/// All figures of `segment` over `chord`, which `next` follows right after, if a chord does.
DrillFigures figures_over(const Chord& chord, const DrillSegment& segment, const DrillSettings& settings,
                          const Chord* next = nullptr);

}  // namespace insideline
