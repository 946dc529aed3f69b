// Plays the page: bars, notes, keys and chord symbols in the order and at the time they sound.
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"
#include "io/musicxml/bar_lengths.hpp"
#include "io/musicxml/melodic_line.hpp"
#include "io/musicxml/road_map.hpp"
#include "io/musicxml/written_part.hpp"

#include <optional>
#include <span>
#include <vector>

namespace insideline::io {

/// A bar for each whole measure, for each pickup, and for each pair of halves.
std::vector<Bar> played_bars(std::span<const PlayedMeasure> played);

std::vector<KeyChange> played_keys(const WrittenPart& part, std::span<const PlayedMeasure> played);

/// Ties are joined where both ends say so, the pitch is the same and nothing lies between.
std::vector<Note> played_notes(const WrittenPart& part, const MelodicLine& line, std::span<const PlayedMeasure> played);

/// Sections are often lettered, and double bar lines drawn, over one part only: both for all parts.
void share_section_signs(std::span<WrittenPart> parts);

/// Rehearsal marks where their bar begins. A mark comes again where its bar is played again, and where a repeat or a
/// jump leads into the middle of another section.
std::vector<RehearsalMark> played_marks(const WrittenPart& part, std::span<const PlayedMeasure> played,
                                        std::span<const Bar> bars);

/// Where a double bar line stands between two bars that follow each other on the page.
std::vector<Beats> played_double_bars(const WrittenPart& part, std::span<const PlayedMeasure> played,
                                      std::span<const Bar> bars);

/// The chord symbols of `part` as they sound: each lasts to the next, the last to the end. Where a repeat or
/// a jump leads to a place without a symbol, the chord written before it holds; one in an ending that this pass does
/// not play is passed over. None without any symbol.
std::optional<Changes> played_changes(const WrittenPart& part, std::span<const PlayedMeasure> played,
                                      const PlayingOrder& order, const Solo& solo);

}  // namespace insideline::io
