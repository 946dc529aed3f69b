#include "analyzer/takes/struck_notes.hpp"

namespace insideline {

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
