// What a listener says of one note. The labels are found under what is said: the pinned note is read as told, and its
// neighbours are heard accordingly.
#pragma once

#include "analyzer/model/beats.hpp"
#include "analyzer/model/pitch.hpp"

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

namespace insideline {

struct Solo;
enum class Role : std::uint8_t;       // analyzer/analysis.hpp
enum class Figure : std::uint8_t;     // the same
enum class Placement : std::uint8_t;  // the same

/// Which chord a note is heard against.
enum class Against : std::uint8_t { sounding, next, previous };

/// What is not said stays open. A note has one pin at most.
struct Pin {
  Beats onset;
  std::size_t grace = 0;  ///< 0: the note itself; 1: the first of the grace notes before it, 2: the second ...
  std::optional<Role> role{};
  std::optional<Figure> figure{};
  std::optional<Degree> degree{};    ///< the note's name over its chord, too
  std::optional<Against> against{};  ///< none: the chord that sounds, else the next, else the one before
  std::optional<Placement> placement{};
  friend bool operator==(const Pin&, const Pin&) = default;
};

/// A pin that cannot be.
struct PinFault {
  std::size_t pin = 0;  ///< index into Settings::pins
  std::string why;      ///< "D is no tone of Fmaj7", "a passing tone comes and goes by step ..."
};

/// The note that `pin` speaks of: an index into `solo.notes`; none where no such note stands there.
std::optional<std::size_t> pinned_note(const Solo& solo, const Pin& pin);

/// A beat as a hearing file has it: "2.5", "7/3".
std::string beat_text(const Beats& beat);

}  // namespace insideline
