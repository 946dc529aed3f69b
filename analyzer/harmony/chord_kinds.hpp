// The kinds of chord that have a plain name of their own, simplest first.
#pragma once

#include "analyzer/model/pitch.hpp"

#include <cstdint>
#include <span>
#include <string_view>
#include <vector>

namespace insideline {

/// How a chord is built: stacks of thirds are heard before sixth and suspended chords.
enum class Building : std::uint8_t { thirds, other };

struct ChordKind {
  std::string_view suffix;  ///< the plainest ASCII spelling after the root
  Building building = Building::thirds;
  std::vector<Degree> tones;  ///< in the order of Chord::tones
};

/// Built once; the order is the order of preference.
std::span<const ChordKind> chord_kinds();

}  // namespace insideline
