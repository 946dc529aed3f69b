// Where the line breathes. A phrase ends at a rest, a shorter one where the line has
// slowed down before it, on a long note that has come to rest, and, where it would
// otherwise run on for very long, at the best breath near the end of a four-bar group. Rests come first after Lerdahl &
// Jackendoff, A Generative Theory of Tonal Music (1983), grouping rules of proximity; the lengths are common practice,
// no source.
#pragma once

#include "analyzer/analysis.hpp"

#include <vector>

namespace insideline {

/// Phrases in order; together they hold every note, grace notes with the note they lead to.
std::vector<Phrase> find_phrases(const Solo& solo, const Harmony& harmony, const Settings& settings = {});

}  // namespace insideline
