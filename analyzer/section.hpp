// A part of a solo looked at by itself: some bars, a chorus, a phrase, or a lettered section of the form. Its notes
// keep the labels they have in the whole, for a line is not heard from its cutting edge; everything else is found and
// counted anew in the part.
#pragma once

#include "analyzer/analysis.hpp"
#include "analyzer/model/solo.hpp"
#include "analyzer/settings.hpp"

#include <cstdint>
#include <optional>
#include <string>

namespace insideline {

enum class SectionKind : std::uint8_t { bars, chorus, phrase, named };

struct Section {
  SectionKind kind = SectionKind::bars;
  int first = 1;       ///< number of the bar, chorus or phrase, as a musician counts: from 1; bar 0 is a pickup
  int last = 1;        ///< included; only bars come in ranges
  std::string name{};  ///< of a lettered section as a musician says it: "B", "last A" (analyzer/model/sections.hpp)
};

/// A solo that is a part of another, with its own analysis. Bars keep their numbers and places; notes, chords,
/// arpeggios and phrases are numbered anew. A note of another chord than those of the part (pushed ahead of the
/// chord after it, say) brings that chord along.
struct SoloPart {
  Solo solo;
  Analysis analysis;
};

/// None where the solo has no such bars, chorus, phrase or section, or no note in them. Of a name that comes several
/// times the first is taken. A chorus and a section take the pickup along that leads into the first bar.
std::optional<SoloPart> analyze_section(const Solo& solo, const Harmony& harmony, const Section& section,
                                        const Settings& settings = {});

}  // namespace insideline
