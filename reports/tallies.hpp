// Results counted by name, for tables. What is counted was decided in analyzer/.
#pragma once

#include "analyzer/analysis.hpp"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace insideline::reports {

struct Tally {
  std::string name;
  std::vector<std::size_t> where;  ///< indices of what was counted, in order
};

/// Arpeggios by their degrees ("3 5 b7"), the most frequent first, then the earliest.
std::vector<Tally> arpeggio_shapes(std::span<const Arpeggio> arpeggios);
/// Arpeggios by inversion, in the order of the inversions.
std::vector<Tally> arpeggio_inversions(std::span<const Arpeggio> arpeggios);
/// Arpeggios that spell a chord on another root than the one they are heard against:
/// "Em7 over Cmaj7"; the most frequent first, then the earliest.
std::vector<Tally> borrowed_chords(const Analysis& analysis);

/// True where the fragment begins on the note that ends the one before.
bool shares_first_note(std::span<const Arpeggio> arpeggios, std::size_t index);

/// Tensions by degree ("b9"), in order of degree; grace notes do not count.
std::vector<Tally> tensions_by_degree(const Solo& solo, std::span<const NoteLabel> labels);

}  // namespace insideline::reports
