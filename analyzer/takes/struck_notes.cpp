#include "analyzer/takes/struck_notes.hpp"

#include <cstddef>

namespace insideline {
namespace {

/// One jump on the page, as a restart or a skip describes it.
class Jump {
 public:
  Jump(const LaidTake& laid, TakeAlignment& alignment, std::size_t after, std::size_t from, std::size_t to)
      : laid_(laid), attempts_(alignment.attempts), after_(after), from_(from), to_(to) {}

  /// By how many attempts it is moved, to a later place above zero.
  std::ptrdiff_t move() {
    std::ptrdiff_t best = 0;
    double longest = pause_before(after_);
    const auto consider = [&](std::size_t after) {
      if (pause_before(after) <= longest) return;
      longest = pause_before(after);
      best = static_cast<std::ptrdiff_t>(after) - static_cast<std::ptrdiff_t>(after_);
    };
    for (std::size_t i = 1; fits_before(i); ++i) consider(after_ - i);
    for (std::size_t i = 0; fits_after(i); ++i) consider(after_ + i + 1);
    for (std::ptrdiff_t i = best; i < 0; ++i) at(i).sheet = to_ - static_cast<std::size_t>(-i);
    for (std::ptrdiff_t i = 0; i < best; ++i) at(i).sheet = from_ + static_cast<std::size_t>(i);
    return best;
  }

 private:
  Attempt& at(std::ptrdiff_t i) { return attempts_[static_cast<std::size_t>(static_cast<std::ptrdiff_t>(after_) + i)]; }

  [[nodiscard]] double seconds(std::size_t attempt) const {
    return laid_.take.performed[laid_.take_notes[*attempts_[attempt].take]].onset_seconds;
  }
  [[nodiscard]] double pause_before(std::size_t attempt) const {
    if (attempt == 0 || attempt >= attempts_.size()) return 0.0;
    if (!attempts_[attempt].take || !attempts_[attempt - 1].take) return 0.0;
    return seconds(attempt) - seconds(attempt - 1);
  }
  [[nodiscard]] int pitch(std::size_t note) const { return midi_number(laid_.on_sheet(note).pitch); }

  /// Whether the attempt `i` before the jump could as well be the one behind it.
  [[nodiscard]] bool fits_before(std::size_t i) const {
    return i <= after_ && i <= from_ && i <= to_ && attempts_[after_ - i].struck == Struck::right &&
           attempts_[after_ - i].sheet == from_ - i && pitch(from_ - i) == pitch(to_ - i);
  }
  [[nodiscard]] bool fits_after(std::size_t i) const {
    return after_ + i < attempts_.size() && from_ + i < laid_.sheet_notes.size() &&
           attempts_[after_ + i].struck == Struck::right && attempts_[after_ + i].sheet == to_ + i &&
           pitch(from_ + i) == pitch(to_ + i);
  }

  const LaidTake& laid_;
  std::vector<Attempt>& attempts_;
  std::size_t after_;
  std::size_t from_;
  std::size_t to_;
};

void move(std::size_t& index, std::ptrdiff_t by) {
  index = static_cast<std::size_t>(static_cast<std::ptrdiff_t>(index) + by);
}

}  // namespace

void move_jumps_to_pauses(const LaidTake& laid, TakeAlignment& alignment) {
  if (laid.take.performed.empty()) return;
  for (Restart& restart : alignment.restarts) {
    const std::ptrdiff_t by = Jump(laid, alignment, restart.after, restart.from, restart.back_to).move();
    for (std::size_t* index : {&restart.after, &restart.from, &restart.back_to}) move(*index, by);
  }
  for (Skip& skip : alignment.skips) {
    const std::ptrdiff_t by = Jump(laid, alignment, skip.after, skip.from, skip.to).move();
    for (std::size_t* index : {&skip.after, &skip.from, &skip.to}) move(*index, by);
  }
}

void leave_out_grace_notes(const LaidTake& laid, TakeAlignment& alignment) {
  const std::vector<std::size_t>& counted = laid.sheet_notes;
  if (counted.size() == laid.sheet.notes.size()) return;
  const auto& attempts = alignment.attempts;
  std::vector<std::size_t> played_before(laid.sheet.notes.size(), attempts.size() + 1);  // by grace note: which attempt
  std::size_t next = 0;  // the first attempt behind the added note
  const auto take_grace_note = [&](std::size_t before, int pitch) {
    std::size_t note = before == 0 ? 0 : counted[before - 1] + 1;
    const std::size_t end = before < counted.size() ? counted[before] : laid.sheet.notes.size();
    while (note < end && (played_before[note] == next || midi_number(laid.sheet.notes[note].pitch) != pitch)) ++note;
    if (note < end) played_before[note] = next;
    return note < end;
  };
  std::erase_if(alignment.added, [&](std::size_t added) {
    while (next < attempts.size() && (!attempts[next].take || *attempts[next].take < added)) ++next;
    const int pitch = midi_number(laid.in_take(added).pitch);
    if (next > 0 && take_grace_note(attempts[next - 1].sheet + 1, pitch)) return true;
    if (next == attempts.size()) return false;
    const std::size_t behind = attempts[next].sheet;
    if (take_grace_note(behind, pitch)) return true;
    // Of two alike, the first of which is the note itself, either can be the one that is added.
    return midi_number(laid.on_sheet(behind).pitch) == pitch && take_grace_note(behind + 1, pitch);
  });
}

LaidTake laid_take(const Solo& sheet, const Solo& take) {
  LaidTake laid{.sheet = sheet, .take = take, .sheet_notes = {}, .take_notes = {}};
  for (std::size_t i = 0; i < sheet.notes.size(); ++i)
    if (!sheet.notes[i].grace) laid.sheet_notes.push_back(i);
  for (std::size_t i = 0; i < take.notes.size(); ++i)
    if (!take.notes[i].grace || !take.performed.empty()) laid.take_notes.push_back(i);
  return laid;
}

std::vector<int> pitches_of(const Solo& solo, std::span<const std::size_t> notes) {
  std::vector<int> pitches;
  pitches.reserve(notes.size());
  for (const std::size_t note : notes) pitches.push_back(midi_number(solo.notes[note].pitch));
  return pitches;
}

std::size_t bar_of(const LaidTake& laid, std::size_t note) {
  return bar_index_at(laid.sheet, laid.on_sheet(note).onset);
}

std::string bar_name(const LaidTake& laid, std::size_t note) {
  const std::string& printed = laid.on_sheet(note).place.bar;
  return printed.empty() ? std::to_string(laid.sheet.bars[bar_of(laid, note)].number) : printed;
}

}  // namespace insideline
