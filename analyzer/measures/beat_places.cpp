#include "analyzer/measures/beat_places.hpp"

#include "analyzer/heard_line.hpp"
#include "analyzer/measures/densities.hpp"

#include <map>
#include <utility>

namespace insideline {

std::vector<PlaceDensity> measure_beat_places(const Solo& solo, const Analysis& analysis) {
  const HeardLine line = hear(solo, analysis.harmony, analysis.labels, analysis.phrases);
  std::map<std::pair<int, bool>, Density> found;
  for (const HeardNote& note : line.notes) {
    if (!counts(note)) continue;
    const Beats beat = beat_in_bar(solo.bars[note.bar], solo.notes[note.note].onset);
    const auto counted = static_cast<int>(whole_units(beat, 1));
    add(found[{counted, beat != Beats(counted)}], note, line);
  }
  std::vector<PlaceDensity> places;
  for (const auto& [place, density] : found)
    places.push_back({.beat = place.first, .after_beat = place.second, .density = density});
  return places;
}

}  // namespace insideline
