// The figures of the printed summary, gathered from the parts.
#pragma once

#include "analyzer/heard_line.hpp"

#include <span>
#include <string>
#include <vector>

namespace insideline {

constexpr int enough_notes = 30;   ///< chosen, no source
constexpr int enough_changes = 8;  ///< chosen, no source

/// Everything of the summary but the two chances. `analysis` holds the labels, arpeggios,
/// connections, densities and outline already.
Summary summarize(const HeardLine& line, const Solo& solo, const Analysis& analysis);

/// For each note of a solo of `notes` notes: whether it is a member of one of `arpeggios`.
std::vector<bool> arpeggio_notes(std::span<const Arpeggio> arpeggios, std::size_t notes);

/// Says so where there is too little to count: fewer than `enough_notes` or `enough_changes`.
std::vector<std::string> warnings_of_shortness(const Summary& summary);

}  // namespace insideline
