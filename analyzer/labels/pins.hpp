// Labels under what a listener says. The readings of a pinned note are those that agree with its pin; where the program
// would not weigh any such reading, it is added as far as the note can be heard that way at all: a chord tone must be a
// tone of its chord, a passing tone comes and goes by step. Which notes are whose neighbours is common practice
// (reading.hpp), no pin changes it.
#pragma once

#include "analyzer/labels/label_model.hpp"
#include "analyzer/pin.hpp"

#include <cstddef>
#include <map>
#include <span>
#include <string>
#include <vector>

namespace insideline {

/// The pins of a solo by the note they speak of.
class PinnedNotes {
 public:
  PinnedNotes(const Solo& solo, std::span<const Pin> pins);

  /// Null where nobody said anything.
  [[nodiscard]] const Pin* of(std::size_t note) const;
  [[nodiscard]] bool any_in(const Chain& chain) const;
  [[nodiscard]] std::size_t index_of(const Pin& pin) const { return static_cast<std::size_t>(&pin - pins_.data()); }

 private:
  std::span<const Pin> pins_;
  std::map<std::size_t, const Pin*> by_note_;
};

/// The readings of a chain under its pins, which hold unless they are named in `faults`.
struct PinnedLattice {
  Lattice lattice;
  std::vector<bool> pinned;  ///< one a note
  std::vector<PinFault> faults;
};

PinnedLattice pinned_lattice(const Chain& chain, const Solo& solo, const Harmony& harmony, Hearing hearing,
                             const PinnedNotes& pins);

/// What a pin calls the note over `chord`, by a degree or by a place in the chord; none where it calls it neither or
/// the note has another pitch.
std::optional<Degree> degree_by_pin(const Pin& pin, const Chord& chord, const Note& note);

/// The label of a grace note under its pin; `label` comes with the chord that sounds and the chord it belongs to, which
/// are its governor. Empty where it holds, else why it cannot be.
std::string label_grace_note(NoteLabel& label, const Pin& pin, const Note& note, const Harmony& harmony);

}  // namespace insideline
