#include "io/abc/abc_signs.hpp"

#include "analyzer/shortened.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <string>

namespace insideline::io {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_note_letter(char c) { return (c >= 'A' && c <= 'G') || (c >= 'a' && c <= 'g'); }

constexpr int most_of_a_length = 1024;  // above and below the slash
constexpr int most_octave_signs = 5;

/// The signs before a note; "^/" and "^3/2" are parts of a semitone (not in 2.1, but written), which have no name here.
void take_accidental(AbcCursor& cursor, AbcNote& note) {
  const char sign = cursor.peek();
  if (sign != '^' && sign != '_' && sign != '=') return;
  int count = 0;
  while (cursor.take(sign)) ++count;
  if (count > (sign == '=' ? 1 : 2))
    refuse(cursor.source, cursor.place(), "too many signs before this note; ^^ and __ are the most");
  note.accidental = sign == '^' ? count : sign == '_' ? -count : 0;
  if (cursor.peek() != '/' && !is_digit(cursor.peek())) return;
  const auto above = take_abc_number(cursor, most_of_a_length);
  const bool part = cursor.take('/');
  const int below = part ? take_abc_number(cursor, most_of_a_length).value_or(2) : 1;
  // Half of a semitone and more counts as the whole; less is no sign.
  const int signs = below == 0 ? 0 : (2 * above.value_or(1) + below) / (2 * below);
  note.accidental = std::clamp(*note.accidental * signs, -2, 2);
  note.microtone = part;
}

/// Blanks inside "| :" and ": |", which people type for |: and :|. They join a single colon to its bar line.
std::size_t blanks_inside(const AbcCursor& cursor, const std::string& signs) {
  std::size_t blanks = 0;
  while (cursor.peek(blanks) == ' ') ++blanks;
  if (blanks == 0 || signs.empty()) return 0;
  const bool before = signs.ends_with('|') && cursor.peek(blanks) == ':' && cursor.peek(blanks + 1) != ':' &&
                      cursor.peek(blanks + 1) != '|';
  return before || (signs == ":" && cursor.peek(blanks) == '|') ? blanks : 0;
}

std::vector<int> take_passes(AbcCursor& cursor) {
  constexpr int most_passes = 99;
  std::vector<int> passes;
  const std::size_t start = cursor.place();
  do {
    const auto first = take_abc_number(cursor, most_passes);
    if (!first && !passes.empty() && cursor.at > 0) {  // "1," at the end: the comma was no part of it
      --cursor.at;
      break;
    }
    auto last = first;
    if (cursor.peek() == '-' && is_digit(cursor.peek(1))) {
      ++cursor.at;
      last = take_abc_number(cursor, most_passes);
    }
    if (!first || *first < 1 || *last < *first)
      refuse(cursor.source, start, "this ending cannot be read; write [1 or [1,3 or [1-3");
    for (int pass = *first; pass <= *last; ++pass) passes.push_back(pass);
  } while (cursor.take(','));
  return passes;
}

}  // namespace

bool at_abc_note(const AbcCursor& cursor) {
  const char sign = cursor.peek();
  return is_note_letter(sign) || sign == '^' || sign == '_' || sign == '=';
}

std::optional<int> take_abc_number(AbcCursor& cursor, int most) {
  if (!is_digit(cursor.peek())) return std::nullopt;
  const std::size_t start = cursor.place();
  int number = 0;
  while (is_digit(cursor.peek())) {
    number = number * 10 + (cursor.peek() - '0');
    if (number > most) refuse(cursor.source, start, fmt::format("this number is too large; {} is the most", most));
    ++cursor.at;
  }
  return number;
}

AbcNote take_abc_note(AbcCursor& cursor) {
  AbcNote note;
  note.offset_bytes = cursor.place();
  take_accidental(cursor, note);
  const char letter = cursor.peek();
  if (!is_note_letter(letter))
    refuse(cursor.source, cursor.place(), "a note from A to G or a to g is expected behind this sign");
  const bool low = letter <= 'G';
  note.step = static_cast<Step>((letter - (low ? 'A' : 'a') + 5) % 7);
  note.octave = low ? 4 : 5;
  ++cursor.at;
  int signs = 0;
  for (; cursor.peek() == '\'' || cursor.peek() == ','; ++cursor.at) {
    note.octave += cursor.peek() == ',' ? -1 : 1;
    if (++signs > most_octave_signs)
      refuse(cursor.source, note.offset_bytes, "too many octave signs; no instrument goes so far");
  }
  return note;
}

Beats take_abc_length(AbcCursor& cursor) {
  const std::size_t start = cursor.place();
  const int above = take_abc_number(cursor, most_of_a_length).value_or(1);
  int below = 1;
  while (cursor.take('/')) {
    below *= take_abc_number(cursor, most_of_a_length).value_or(2);
    if (below > most_of_a_length) break;
  }
  if (above == 0 || below == 0 || below > most_of_a_length)
    refuse(cursor.source, start, "this is not a length; write A2, A/2, A3/2 or A/");
  return {above, below};
}

bool at_abc_bar(const AbcCursor& cursor) {
  const char sign = cursor.peek();
  return sign == '|' || sign == ':' || (sign == '[' && (cursor.peek(1) == '|' || is_digit(cursor.peek(1))));
}

AbcBarSign take_abc_bar(AbcCursor& cursor) {
  AbcBarSign bar;
  const std::size_t start = cursor.place();
  std::string signs;
  while (!cursor.done()) {
    const std::size_t blanks = blanks_inside(cursor, signs);
    bar.loose = bar.loose || blanks > 0;
    cursor.at += blanks;
    const char sign = cursor.peek();
    const bool opens = sign == '[' && cursor.peek(1) == '|';
    const bool closes = sign == ']' && signs.ends_with('|');
    if (sign != '|' && sign != ':' && !opens && !closes) break;
    signs += sign;
    ++cursor.at;
  }
  const std::size_t first = signs.find('|');
  const auto colons = static_cast<int>(std::ranges::count(signs, ':'));
  if (first == std::string::npos && !signs.empty()) {
    if (colons < 2) refuse(cursor.source, start, "a single colon is no bar line; a repeat is written |: or :|");
    bar.ends = colons / 2;
    bar.starts = true;
  } else if (!signs.empty()) {
    bar.ends = static_cast<int>(signs.find_first_not_of(":["));
    if (signs.front() != ':') bar.ends = 0;
    bar.starts = signs.back() == ':';
  }
  bar.closing = colons > 0 || std::ranges::count(signs, '|') > 1 || signs.find_first_of("[]") != std::string::npos;
  std::size_t ahead = 0;  // "| [1" and "|1" are the same
  while (cursor.peek(ahead) == ' ') ++ahead;
  const bool bracket = cursor.peek(ahead) == '[' && is_digit(cursor.peek(ahead + 1));
  if (bracket) cursor.at += ahead + 1;
  if (bracket || (!signs.empty() && is_digit(cursor.peek()))) bar.ending = take_passes(cursor);
  return bar;
}

AbcTuplet take_abc_tuplet(AbcCursor& cursor, bool compound) {
  constexpr int most_notes = 64;
  const std::size_t start = cursor.place();
  cursor.take('(');
  const int notes = take_abc_number(cursor, most_notes).value_or(0);
  // In the time of how many, where the tune does not say (4.13).
  const int usual = notes == 3 || notes == 6 ? 2 : notes == 2 || notes == 4 || notes == 8 ? 3 : compound ? 3 : 2;
  std::optional<int> time;
  std::optional<int> count;
  if (cursor.take(':')) {
    time = take_abc_number(cursor, most_notes);
    if (cursor.take(':')) count = take_abc_number(cursor, most_notes);
  }
  const bool usual_known = notes >= 2 && notes <= 9;
  if (notes < 1 || (!time && !usual_known) || time == 0 || count == 0)
    refuse(cursor.source, start,
           "this tuplet cannot be read; write (3 or (p:q:r, p notes in the time of q for the next r notes");
  return {Beats(time.value_or(usual), notes), count.value_or(notes)};
}

}  // namespace insideline::io
