// The lettered sections of the form in figures: all that was played over the A's, over the B's ...
#pragma once

#include "analyzer/heard_line.hpp"

#include <optional>
#include <span>
#include <vector>

namespace insideline {

/// The section that note `note` of the solo counts in: the one it is struck in, or, played ahead, that of its chord. A
/// pickup counts in the first section. Index into `sections`; none before the first letter.
std::optional<std::size_t> section_of_note(const Solo& solo, const Harmony& harmony, const NoteLabel& label,
                                           std::size_t note);

/// `analysis` needs its harmony, labels, arpeggios and connections. Empty where the form has no letters.
std::vector<SectionFigures> measure_sections(const HeardLine& line, const Solo& solo, const Analysis& analysis);

}  // namespace insideline
