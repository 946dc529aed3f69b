// Which chords get their guide tones, and how soon.
#pragma once

#include "analyzer/heard_line.hpp"

namespace insideline {

/// One row a stretch of a chord. Notes count for the chord they are heard against, so an
/// anticipated third is the third of the chord it runs ahead of.
Outline measure_outline(const HeardLine& line, const Solo& solo, const Harmony& harmony);

}  // namespace insideline
