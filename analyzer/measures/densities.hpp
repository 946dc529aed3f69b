// What the line is made of, sorted by place, degree, chord, chorus and phrase.
// Grace notes and notes under N.C. count nowhere. `strict` leaves out notes that sound
// before the first chord, because no chord sounds under them.
#pragma once

#include "analyzer/heard_line.hpp"

#include <span>

namespace insideline {

/// A note is in the chorus of the chord it is heard against.
Densities measure_densities(const HeardLine& line, const Harmony& harmony, std::span<const NoteLabel> labels);

/// Adds a note that counts to `density`.
void add(Density& density, const HeardNote& note, const HeardLine& line);

}  // namespace insideline
