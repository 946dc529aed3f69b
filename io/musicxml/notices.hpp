// Collects what was odd while reading. Things of one kind become one warning, at the
// place of the first, with a count: a score with 2000 odd bars says so once.
#pragma once

#include "io/musicxml/document.hpp"
#include "io/read_result.hpp"

#include <cstddef>
#include <functional>
#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

enum class Oddity : std::uint8_t {
  chord_notes,
  overlapping_notes,
  cue_notes,
  unpitched_notes,
  slash_notes,
  other_voices,
  joined_voices,
  quarter_tones,
  missing_durations,
  stray_backups,
  short_bars,
  nearly_full_pickups,
  repeated_bars,
  long_bars,
  lost_jumps,
  unplayed_bars,
  jumps_from_words,
  two_chords,
  concert_transpose,
  odd_meters,
  printed_ties,
  jumps_inside_bars,
  idle_codas,
  renumbered_endings,
  shared_chords,
  unknown_chords,
  stray_chords,
  contrary_prints,
  long_chords,
  missing_divisions
};

class Notices {
 public:
  /// Counts one more; `bar` is the number printed on the page, for the message.
  void add(Oddity oddity, std::ptrdiff_t offset_bytes, std::string_view bar, std::size_t count = 1);
  /// Why it is so, after the first `add`; later ones are not told.
  void explain(Oddity oddity, std::string_view why);
  /// What another part, whose chord symbols are used, has to say about them.
  void take_over_chords(const Notices& other);
  /// A remark of its own.
  void remark(Place place, std::string message);
  /// Remarks first, then one warning for each kind of oddity that occurred.
  [[nodiscard]] std::vector<Warning> warnings(const ScoreDocument& document) const;
  /// The same for a text that is no score; `place_at` knows where an offset into it is.
  [[nodiscard]] std::vector<Warning> warnings(const std::function<Place(std::ptrdiff_t)>& place_at) const;

 private:
  struct Seen {
    std::ptrdiff_t first_offset = -1;
    std::size_t count = 0;
    std::vector<std::string> bars;  ///< the first few, each once
    bool more_bars = false;
    std::string why;  ///< of the first
  };
  std::map<Oddity, Seen> seen_;
  std::vector<Warning> remarks_;
};

}  // namespace insideline::io
