// The bars and beats of a MIDI file, from its meters and tempos or from tapped beats. Positions count from the start
// of the file until bar 1 has been found.
#pragma once

#include "analyzer/model/solo.hpp"
#include "io/midi/beat_cells.hpp"
#include "io/midi/beats_file.hpp"
#include "io/midi/midi_song.hpp"
#include "io/midi/tempo_clock.hpp"

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace insideline::io {

struct Timeline {
  std::vector<Bar> bars;         ///< numbered from 1, without gaps
  std::vector<BeatCell> cells;   ///< without gaps, a bar more than `bars`; only where they are needed
  std::optional<Beats> bar_one;  ///< where the source itself says that bar 1 begins
};

/// As the file says, bars only; 4/4 where it says nothing. Throws ReadError for more bars than a solo can have.
Timeline timeline_of(const MidiSong& song, std::uint32_t end_ticks, std::string_view file_name);

/// The beats of such bars in the file's tempo.
std::vector<BeatCell> cells_of(const std::vector<Bar>& bars, const MidiSong& song, const TempoClock& clock);

/// As tapped; the meter is that of the numbers, else `meter`. Before the first and after the last tap time goes on at
/// the pace there.
Timeline timeline_of(std::span<const TappedBeat> taps, const Meter& meter, double first_seconds, double end_seconds);

/// Where `seconds` falls, in units.
double units_at(std::span<const BeatCell> cells, double seconds);

/// The bars with bar 1 at `bar_one`: earlier bars are left out, except for a pickup that holds `first_note`.
/// Positions then count from bar 1. Throws ReadError where a note lies more than a bar before it.
std::vector<Bar> counted_from(const std::vector<Bar>& bars, const Beats& bar_one, const Beats& first_note,
                              std::string_view file_name);

}  // namespace insideline::io
