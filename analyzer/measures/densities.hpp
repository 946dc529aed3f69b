// What the line is made of, sorted by place, degree, chord, chorus and phrase.
// Grace notes and notes under N.C. count nowhere. `strict` leaves out notes that sound
// before the first chord, because no chord sounds under them.
#pragma once

#include "analyzer/heard_line.hpp"

#include <span>

namespace insideline {

/// All notes, and those of each place in the bar.
Densities measure_densities(const HeardLine& line);
/// Sorts them by degree, chord, chorus and phrase as well. A note is in the chorus of the chord it is heard against.
void add_groups(Densities& densities, const HeardLine& line, const Harmony& harmony, std::span<const NoteLabel> labels);

/// Adds a note that counts to `density`.
void add(Density& density, const HeardNote& note, const HeardLine& line);

}  // namespace insideline
