// Which single note values may stand where in a bar.
#pragma once

#include "analyzer/model/beats.hpp"
#include "analyzer/model/changes.hpp"
#include "analyzer/notation/rhythm_writing.hpp"

#include <cstdint>
#include <vector>

namespace insideline {

enum class Sounding : std::uint8_t { note, rest };

/// The length between two of the places where a reader looks for a beat: a quarter in 4/4
/// and 2/2, a dotted quarter in 6/8.
Beats reading_beat(const Meter& meter);

/// The values, tied together, that fill `onset` to `end`; both count from the start of the
/// full bar and are whole sixty-fourths.
std::vector<NoteValue> values_in_bar(const Meter& meter, Sounding sounding, Beats onset, const Beats& end);

/// The same inside a tuplet, where `length` counts in the values that are written.
std::vector<NoteValue> values_in_tuplet(Sounding sounding, Beats length);

}  // namespace insideline
