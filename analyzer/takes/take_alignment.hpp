// A recorded take laid against the sheet it was played from: which note of the take is which note of the sheet, with
// wrong, missing and added notes, slips by an octave, and places where the player went back or jumped ahead.
// The cheapest way by dynamic programming; source of the method: S. B. Needleman and C. D. Wunsch, J. Mol. Biol. 48
// (1970) 443-453. The jumps are our own, and so is that places which a jump reaches as cheaply are not looked at.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <span>
#include <vector>

namespace insideline {

enum class Struck : std::uint8_t {
  right,
  octave_slip,  ///< the right name in another octave
  wrong,
  missing
};

/// One try at a note of the sheet. A note is tried again where the player begins a passage again.
struct Attempt {
  std::size_t sheet = 0;            ///< index into the sheet's notes
  std::optional<std::size_t> take;  ///< index into the take's notes; none for a missing one
  Struck struck = Struck::missing;
};

/// Where the player broke off and went back.
struct Restart {
  std::size_t after = 0;  ///< attempts made before it
  std::size_t from = 0;   ///< the note of the sheet that would have come next; the number of notes at the end
  std::size_t back_to = 0;
};

/// Where the player left out a passage and went on behind it.
struct Skip {
  std::size_t after = 0;  ///< attempts made before it
  std::size_t from = 0;   ///< the first note of the sheet that was left out
  std::size_t to = 0;     ///< the note that was played next; > from
};

struct TakeAlignment {
  std::vector<Attempt> attempts;   ///< in the order they were played
  std::vector<std::size_t> added;  ///< notes of the take that belong to no note of the sheet
  std::vector<Restart> restarts;   ///< a second time through the whole sheet is one as well
  std::vector<Skip> skips;
  std::size_t first_played = 0;  ///< notes of the sheet before this one were not begun
  std::size_t played_to = 0;     ///< notes from this one on were not reached; equal where nothing was played
  double cost = 0.0;
  std::size_t places = 0;  ///< pairs of a note of the take and one of the sheet that were looked at: what it cost us
};

/// What a difference costs: the weights of an edit distance. Common practice, no source, but that going back must be
/// dearer than a wrong note or two and cheaper than a passage played twice.
struct AlignmentCosts {
  double octave_slip = 0.6;
  double wrong = 1.0;
  double missing = 1.0;
  double added = 1.0;
  double restart = 2.5;
  double not_played = 0.25;   ///< each note before the beginning or after the end of a take
  double most_outside = 2.0;  ///< for all of them at either side: where a take begins and ends is free
  double skip = 6.0;  ///< a passage left out, however long: dearer than a slip of some notes, cheaper than a bar
};

/// Pitches as MIDI numbers, in the order they sound. A jump goes from where the take is best explained so far to where
/// a note is played next. What is looked at grows with the longer of the two, and with the mistakes; for notes that are
/// all alike with the product of the lengths, and memory by four bytes each.
TakeAlignment align_take(std::span<const int> sheet, std::span<const int> take, const AlignmentCosts& costs = {});

}  // namespace insideline
