// The notes of a sheet and of a take that are laid against each other.
#pragma once

#include "analyzer/model/solo.hpp"
#include "analyzer/takes/take_alignment.hpp"

#include <cstddef>
#include <span>
#include <string>
#include <vector>

namespace insideline {

/// Sheet and take with their notes that count; an Attempt's indices are into the lists here. The solos must outlive it.
struct LaidTake {
  const Solo& sheet;
  const Solo& take;
  std::vector<std::size_t> sheet_notes;
  std::vector<std::size_t> take_notes;

  [[nodiscard]] const Note& on_sheet(std::size_t note) const { return sheet.notes[sheet_notes[note]]; }
  [[nodiscard]] const Note& in_take(std::size_t note) const { return take.notes[take_notes[note]]; }
};
/// A sheet's grace notes are ornaments and do not count. Of a take that was really played every note does: what came
/// too fast for its page is read as a grace note.
LaidTake laid_take(const Solo& sheet, const Solo& take);

std::vector<int> pitches_of(const Solo& solo, std::span<const std::size_t> notes);

/// Where a passage is like another, a step back or ahead fits in several places: it is moved to where the player paused
/// longest. Takes without times stay as they are.
void move_jumps_to_pauses(const LaidTake& laid, TakeAlignment& alignment);

/// Grace notes of the sheet that were played are not added: they are taken out of `alignment.added`, each once
/// for each time that its place is played.
void leave_out_grace_notes(const LaidTake& laid, TakeAlignment& alignment);

/// The bar of the sheet that holds its note `note`, as an index into `sheet.bars`.
std::size_t bar_of(const LaidTake& laid, std::size_t note);
/// The number of that bar as the page prints it.
std::string bar_name(const LaidTake& laid, std::size_t note);

}  // namespace insideline
