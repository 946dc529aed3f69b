#include "io/audio/raw_notes.hpp"

#include <algorithm>
#include <cstdlib>

namespace insideline::io {
namespace {

// In moments of 5.8 ms. Sixteenths at a quarter note of 240 last 62 ms. Common practice, no source.
constexpr std::size_t shortest_note = 6;
constexpr std::size_t longest_piece = 13;
constexpr std::size_t longest_scoop = 24;
constexpr std::size_t touching = 3;
constexpr std::size_t soonest_again = 18;  // a tongue repeats a note ten times a second at most
constexpr float clear_attack = 0.3F;

std::size_t length(const RawNote& note) { return note.end - note.begin; }
bool touches(const RawNote& first, const RawNote& second) { return second.begin <= first.end + touching; }

/// A note that bends up into its pitch, whose attack sounds before its pitch does, or that speaks an octave off at
/// first, as reeds do.
bool leads_into(const RawNote& piece, const RawNote& next) {
  if (!touches(piece, next) || next.attack >= clear_attack) return false;
  const int up = next.midi - piece.midi;
  const bool bends_or_speaks = up == 1 || up == 2 || std::abs(up) == 12;
  return length(piece) <= longest_piece || (length(piece) <= longest_scoop && bends_or_speaks);
}

/// A swell after the attack looks like another.
bool swells(const RawNote& note, const RawNote& piece) {
  return piece.midi == note.midi && touches(note, piece) && piece.begin < note.begin + soonest_again;
}

bool falls_off(const RawNote& before, const RawNote& piece) {
  return touches(before, piece) && piece.attack < clear_attack && length(piece) <= longest_piece;
}

}  // namespace

std::vector<RawNote> joined(std::span<const RawNote> pieces) {
  std::vector<RawNote> notes;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    RawNote note = pieces[i];
    for (; i + 1 < pieces.size() && (leads_into(note, pieces[i + 1]) || swells(note, pieces[i + 1])); ++i) {
      const RawNote& next = pieces[i + 1];
      note = {note.begin, next.end, next.midi, std::max(note.attack, next.attack), next.fit};
    }
    const bool is_last_of_breath = i + 1 == pieces.size() || !touches(note, pieces[i + 1]);
    if (is_last_of_breath && !notes.empty() && falls_off(notes.back(), note))
      notes.back().end = note.end;
    else if (length(note) >= shortest_note)
      notes.push_back(note);
  }
  return notes;
}

}  // namespace insideline::io
