// What is heard in a recording of one instrument: its notes, how sure each is, the clicks before them, and whether the
// recording can be trusted at all.
#pragma once

#include "io/audio/mono.hpp"

#include <optional>
#include <string>
#include <vector>

namespace insideline::io {

struct HeardNote {
  double onset_seconds = 0.0;
  double end_seconds = 0.0;
  int midi = 60;
  float sure = 1.0F;  ///< 0 to 1: how much of what was heard while it lasts speaks for this pitch
};

/// Below this a note is called unsure. Of rendered notes that were as sure as this or surer 99 in 100 were right, of
/// the others 47 (DEVELOPERS.md, "How well it listens").
constexpr float sure_from = 0.6F;
constexpr bool is_sure(const HeardNote& note) { return note.sure >= sure_from; }

struct ListeningRange {
  int lowest_midi = 36;   ///< C2, below a baritone saxophone
  int highest_midi = 98;  ///< D7, above a flute
};

struct HeardLine {
  std::vector<HeardNote> notes;  ///< one after another, none overlaps the next
  std::vector<double> clicks;    ///< seconds, evenly spaced, before the first note; empty or three or more
  double tuning_cents = 0.0;     ///< above A4 = 440 Hz
  SoundLevels levels;
  double pitched_share = 0.0;  ///< of the time that is not silent, how much has a pitch
};

/// Reads the file to its end. Throws ReadError where it cannot be read. There may be no notes.
HeardLine heard_line(SoundFile& file, const ListeningRange& range = {});

}  // namespace insideline::io
