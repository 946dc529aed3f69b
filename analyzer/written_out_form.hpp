// A form that a score writes out chorus after chorus, found by its chords: chords over a score say how they go on, and
// not where they begin again.
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <optional>

namespace insideline {

/// How many bars the form has: the fewest, from twelve on, after which the chords come again bar by bar and as often
/// as the solo lasts; only the last two bars of a chorus, where a turn-around stands, and up to two bars of an ending
/// may differ. None where the chords do not come again, or already do so after fewer bars: that is a vamp, or the
/// halves of a short form. The fewest bars and the two of the turn-around are our own choice.
std::optional<int> written_out_form(const Harmony& harmony, const Solo& solo);

}  // namespace insideline
