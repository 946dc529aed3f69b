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

/// The chord symbols of `part` as they sound: each lasts to the next, the last to the end. Where a repeat or
/// a jump leads to a place without a symbol, the chord written before it holds; one in an ending that this pass does
/// not play is passed over. None without any symbol.
std::optional<Changes> played_changes(const WrittenPart& part, std::span<const PlayedMeasure> played,
                                      const PlayingOrder& order, const Solo& solo);

}  // namespace insideline::io
