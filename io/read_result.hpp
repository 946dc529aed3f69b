// What a reader gives back, and how it says that it cannot.
#pragma once

#include "analyzer/bar_one.hpp"
#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"
#include "io/source_text.hpp"

#include <cstdint>
#include <optional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

/// Something odd in a file that can be used all the same.
struct Warning {
  Place place;
  std::string message;
};

/// "lantern.musicxml:12:4: bar 7 is half a beat short", on one line.
std::string to_string(const Warning& warning);

/// Where in a file its own changes stand.
enum class ChangesPlace : std::uint8_t { in_score, in_markers, in_chord_track };

/// Why the part that was read is the one, where nobody asked for it.
enum class PartTaken : std::uint8_t {
  first_line,    ///< it is the first with a single line
  nearest_line,  ///< none has a single line; it has the fewest notes beside its line
  only_one       ///< no other part has a note with a pitch
};

struct ReadResult {
  Solo solo;
  std::optional<Changes> changes;  ///< where the score carries its own
  ChangesPlace changes_place = ChangesPlace::in_score;
  std::vector<Warning> warnings;
  PartTaken part_taken = PartTaken::first_line;
  std::optional<CountIn> count_in;  ///< what was left out before bar 1 of a recording
  bool keeps_to_beats = true;       ///< false for a line that was played to other beats than those it was read by
  std::optional<Beats> bar_one;     ///< of a MIDI file: where bar 1 begins, from the start of the file
};

/// The input cannot be used. `what()` is the whole message: the place, what was
/// found and what to do, then the source line with a caret where there is one.
class ReadError : public std::runtime_error {
 public:
  ReadError(Place place, std::string_view message);
  [[nodiscard]] const Place& place() const { return place_; }

 private:
  Place place_;
};

}  // namespace insideline::io
