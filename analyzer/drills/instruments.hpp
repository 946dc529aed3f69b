// The ranges that a practice sheet keeps to, and how instruments transpose: the practical range of a good player,
// without the extremes. From memory of S. Adler, The Study of Orchestration, 4th ed. (2016), appendix A, not checked
// against the book; where a player has more or less, LOW-HIGH says it.
#pragma once

#include "analyzer/model/pitch.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>

namespace insideline {

/// MIDI numbers, both included.
struct PitchRange {
  int lowest = 60;
  int highest = 84;
  friend bool operator==(const PitchRange&, const PitchRange&) = default;
};

enum class StaffClef : std::uint8_t { treble, alto, bass };

struct Instrument {
  std::string_view name;  ///< as it is typed: "tenor-sax"
  std::string_view part;  ///< as it is printed: "Tenor saxophone"
  std::string_view written_low;
  std::string_view written_high;
  Interval sounding_minus_written;
  StaffClef clef = StaffClef::treble;  ///< the one that its player reads most
};

std::span<const Instrument> instruments();

/// None where there is no such instrument; blanks and underscores count as hyphens.
std::optional<Instrument> instrument_named(std::string_view name);

/// "flute, oboe, ...": every name as it is typed.
std::string instrument_names();

/// In written and in sounding pitch.
PitchRange written_range(const Instrument& instrument);
PitchRange sounding_range(const Instrument& instrument);

/// "F3-C5", low before high; none for anything else.
std::optional<PitchRange> parse_pitch_range(std::string_view text);

/// "F3 to C5".
std::string to_string(const PitchRange& range);

}  // namespace insideline
