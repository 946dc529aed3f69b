#include "io/abc/music_line.hpp"

#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/shortened.hpp"
#include "io/musicxml/jump_words.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>

namespace insideline::io {
namespace {

bool is_lower(char c) { return c >= 'a' && c <= 'z'; }

/// "Coda", "Fine", "D.C.", "Bridge": words over the staff that begin with the letter of a chord. A chord has no full
/// stop and no run of three small letters but these.
bool is_word(std::string_view text) {
  if (text.empty() || text.front() < 'A' || text.front() > 'G') return true;
  if (text.find(". ") != std::string_view::npos || text.find(".C") != std::string_view::npos ||
      text.find(".S") != std::string_view::npos)
    return true;
  constexpr std::array in_chords = {"maj", "min", "dim", "aug", "sus", "add", "alt", "omit", "dom", "no"};
  for (std::size_t at = 1; at < text.size();) {
    const auto known =
        std::ranges::find_if(in_chords, [&](std::string_view part) { return text.substr(at).starts_with(part); });
    if (known != in_chords.end()) {
      at += std::string_view(*known).size();
      continue;
    }
    std::size_t end = at;
    while (end < text.size() && is_lower(text[end])) ++end;
    if (end - at >= 3) return true;
    at = std::max(end, at + 1);
  }
  return false;
}

void read_words_over_staff(const AbcCursor& cursor, std::string_view words, VoiceWriter& voice, Notices& notices) {
  if (read_jump_words(words, voice.signs_here()))
    notices.add(Oddity::jumps_from_words, static_cast<std::ptrdiff_t>(cursor.place()), {});
}

/// "Am7" is a chord; with one of ^ _ < > @ in front it is a remark that stands there (4.18, 4.19).
void read_quoted(AbcCursor& cursor, VoiceWriter& voice, Notices& notices) {
  const std::size_t start = cursor.place();
  const auto close = cursor.line.find('"', cursor.at + 1);
  if (close == std::string_view::npos) refuse(cursor.source, start, "this \" has no partner in its line");
  std::string_view text = cursor.line.substr(cursor.at + 1, close - cursor.at - 1);
  cursor.at = close + 1;
  if (!text.empty() && std::string_view("^_<>@").find(text.front()) != std::string_view::npos)
    return read_words_over_staff(cursor, text.substr(1), voice, notices);
  if (text.size() > 2 && text.front() == '(' && text.back() == ')') text = text.substr(1, text.size() - 2);
  const auto chord = parse_chord_symbol(text);
  if (chord) return voice.add_chord(*chord, text, start);
  if (is_word(text)) {
    notices.remark(
        place_in(cursor.source.file, cursor.source.text, start),
        fmt::format("\"{}\" is no chord and was taken as a remark; the chord before goes on", shortened(text)));
    return read_words_over_staff(cursor, text, voice, notices);
  }
  std::string message = chord.error().message;
  for (std::size_t i = 0; i < chord.error().nearest.size(); ++i)
    message += fmt::format("{}\"{}\"", i == 0 ? "; did you mean " : " or ", chord.error().nearest[i]);
  message += "; a remark is written with a ^ in front, \"^solo\"";
  refuse(cursor.source, start + 1 + std::min(chord.error().offset_bytes, text.size()), message);
}

/// "[CEG]2": the notes share the length behind the bracket; each may have its own, of which the first counts (4.17).
void read_notes_together(AbcCursor& cursor, VoiceWriter& voice) {
  const std::size_t start = cursor.place();
  std::vector<AbcNote> notes;
  std::optional<Beats> length;
  bool ties = false;
  cursor.take('[');
  while (!cursor.take(']')) {
    constexpr std::size_t most_notes = 32;
    if (cursor.done()) refuse(cursor.source, start, "this [ has no ]; notes that sound together are written [CEG]");
    if (cursor.take('-')) {
      ties = true;
    } else if (at_abc_note(cursor)) {
      notes.push_back(take_abc_note(cursor));
      const Beats own = take_abc_length(cursor);
      if (!length) length = own;
    } else if (std::string_view(" .~()").find(cursor.peek()) != std::string_view::npos) {
      ++cursor.at;
    } else {
      refuse(cursor.source, cursor.place(),
             fmt::format("\"{}\" is not a note; notes that sound together are written [CEG]", cursor.peek()));
    }
    if (notes.size() > most_notes) refuse(cursor.source, start, "more notes sound together here than anybody can play");
  }
  if (notes.empty()) refuse(cursor.source, start, "there is no note between these brackets");
  const Beats outer = take_abc_length(cursor);
  voice.add_notes(notes, length.value_or(Beats(1)) * outer);
  if (ties) voice.tie(start);
}

void read_grace_notes(AbcCursor& cursor, VoiceWriter& voice) {
  const std::size_t start = cursor.place();
  cursor.take('{');
  while (!cursor.take('}')) {
    if (cursor.done()) refuse(cursor.source, start, "these grace notes have no }");
    if (at_abc_note(cursor)) {
      voice.add_grace(take_abc_note(cursor));
      take_abc_length(cursor);
    } else if (std::string_view(" /()[]-<>.").find(cursor.peek()) != std::string_view::npos) {
      ++cursor.at;
    } else {
      refuse(cursor.source, cursor.place(), fmt::format("\"{}\" is not a grace note", cursor.peek()));
    }
  }
}

void read_rest(AbcCursor& cursor, VoiceWriter& voice) {
  const std::size_t start = cursor.place();
  const char sign = cursor.peek();
  ++cursor.at;
  if (sign == 'z' || sign == 'x') return voice.add_rest(take_abc_length(cursor), start);
  constexpr int most_bars = 1000;
  const int bars = take_abc_number(cursor, most_bars).value_or(1);
  if (bars == 0) refuse(cursor.source, start, "a rest of no bars; write Z4 for four");
  voice.add_bar_rests(bars, start);
}

void read_broken_rhythm(AbcCursor& cursor, VoiceWriter& voice) {
  const std::size_t start = cursor.place();
  const char sign = cursor.peek();
  int signs = 0;
  while (cursor.take(sign)) ++signs;
  voice.break_rhythm(sign == '>' ? signs : -signs, start);
}

/// "!fine!"; without a partner in its line a ! is the line break of older files.
void read_decoration(AbcCursor& cursor, VoiceWriter& voice) {
  struct Road {
    std::string_view name;
    std::string_view words;
  };
  constexpr std::array roads = {Road{"D.C.", "D.C."},
                                Road{"D.S.", "D.S."},
                                Road{"dacapo", "D.C."},
                                Road{"fine", "Fine"},
                                Road{"dacoda", "To Coda"},
                                Road{"D.C.alcoda", "D.C. al Coda"},
                                Road{"D.C.alfine", "D.C. al Fine"},
                                Road{"D.S.alcoda", "D.S. al Coda"},
                                Road{"D.S.alfine", "D.S. al Fine"}};
  const auto close = cursor.line.find(cursor.peek(), cursor.at + 1);
  if (close == std::string_view::npos) {
    ++cursor.at;
    return;
  }
  const std::string_view name = cursor.line.substr(cursor.at + 1, close - cursor.at - 1);
  cursor.at = close + 1;
  if (name == "segno") voice.signs_here().segno_printed = true;
  if (name == "coda") voice.signs_here().coda_printed = true;
  if (const auto* const road = std::ranges::find(roads, name, &Road::name); road != roads.end())
    read_jump_words(road->words, voice.signs_here());
}

void read_round(AbcCursor& cursor, VoiceWriter& voice) {
  if (cursor.peek(1) < '0' || cursor.peek(1) > '9') {  // a slur says nothing about when notes begin
    ++cursor.at;
    return;
  }
  const auto& meter = voice.settings.meter;
  const bool compound = meter && meter->beats % 3 == 0 && meter->beats > 3;
  voice.begin_tuplet(take_abc_tuplet(cursor, compound));
}

/// Letters that stand for a sign over the next note (4.16), and what only lays out the page (4.7, 6.1).
bool is_passed_over(char sign, const VoiceWriter& voice) {
  constexpr std::string_view signs = ".~HLMPSTuvO)`$*\\; \t\r\v\f";
  return signs.find(sign) != std::string_view::npos || voice.user_signs.find(sign) != std::string::npos;
}

void read_other(AbcCursor& cursor, VoiceWriter& voice) {
  const char sign = cursor.peek();
  if (!is_passed_over(sign, voice)) {
    const bool printable = static_cast<unsigned char>(sign) > 0x20U && static_cast<unsigned char>(sign) < 0x7FU;
    const std::string found = printable ? fmt::format("\"{}\"", sign) : std::string("this sign");
    refuse(cursor.source, cursor.place(),
           fmt::format("{} is neither a note nor a sign of ABC; notes are C to B and c to b, a rest is z, words begin "
                       "with a field such as w:",
                       found));
  }
  if (sign == 'S') voice.signs_here().segno_printed = true;
  if (sign == 'O') voice.signs_here().coda_printed = true;
  ++cursor.at;
}

}  // namespace

void read_music_sign(AbcCursor& cursor, VoiceWriter& voice, Notices& notices) {
  const std::size_t start = cursor.place();
  if (at_abc_bar(cursor)) return voice.bar_line(take_abc_bar(cursor), start);
  if (at_abc_note(cursor)) {
    const AbcNote note = take_abc_note(cursor);
    const Beats length = take_abc_length(cursor);
    return voice.add_notes({&note, 1}, length);
  }
  switch (cursor.peek()) {
    case '"': return read_quoted(cursor, voice, notices);
    case '[': return read_notes_together(cursor, voice);
    case '{': return read_grace_notes(cursor, voice);
    case '(': return read_round(cursor, voice);
    case '!':
    case '+': return read_decoration(cursor, voice);
    case '>':
    case '<': return read_broken_rhythm(cursor, voice);
    case 'z':
    case 'x':
    case 'Z':
    case 'X': return read_rest(cursor, voice);
    case '-': ++cursor.at; return voice.tie(start);
    case '&': ++cursor.at; return voice.begin_overlay();
    case 'y':
      ++cursor.at;
      take_abc_length(cursor);
      return;
    default: return read_other(cursor, voice);
  }
}

}  // namespace insideline::io
