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
