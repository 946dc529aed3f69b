#include "reports/printed/lilypond_text.hpp"

#include "reports/text/display_width.hpp"

#include <fmt/format.h>

#include <array>
#include <cassert>
#include <cstdlib>

namespace insideline::reports {
namespace {

constexpr int widest_alteration = 2;

/// The note at `place` on the line of fifths, where C is 0 and G is 1.
NoteName note_on_line_of_fifths(int place) {
  constexpr std::array steps{Step::f, Step::c, Step::g, Step::d, Step::a, Step::e, Step::b};
  constexpr int letters = 7;
  const int from_f = place + 1;
  const int alter = (from_f >= 0 ? from_f : from_f - (letters - 1)) / letters;
  return {steps[static_cast<std::size_t>(from_f - alter * letters)], alter};
}

}  // namespace

std::string lilypond_string(std::string_view text) {
  std::string literal = "\"";
  for (const char letter : printable(text)) {
    if (letter == '"' || letter == '\\') literal += '\\';
    literal += letter;
  }
  return literal + '"';
}

std::string fitted(std::string_view text, std::size_t width) {
  const std::string whole = printable(text);
  const bool too_long = display_width(whole) > width;
  std::string result;
  std::size_t columns = 0;
  std::size_t columns_of_word = 0;
  for (std::string_view rest = whole; !rest.empty();) {
    const std::string_view character = first_character(rest);
    rest.remove_prefix(character.size());
    columns += character_width(character);
    if (too_long && columns >= width) return result + "…";
    columns_of_word = character == " " ? 0 : columns_of_word + character_width(character);
    if (columns_of_word > width / 2) {
      result += ' ';
      columns_of_word = character_width(character);
    }
    result += character;
  }
  return result;
}

std::string lilypond_name(const NoteName& name) {
  assert(std::abs(name.alter) <= widest_alteration && "nothing above a double accidental is written");
  std::string text(1, "cdefgab"[static_cast<std::size_t>(name.step)]);
  for (int flat = name.alter; flat < 0; ++flat) text += "es";
  for (int sharp = 0; sharp < name.alter; ++sharp) text += "is";
  return text;
}

std::string lilypond_pitch(const Pitch& asked) {
  const Pitch pitch = writable(asked);
  constexpr int unmarked_octave = 3;
  std::string text = lilypond_name(pitch.name);
  for (int octave = unmarked_octave; octave < pitch.octave; ++octave) text += '\'';
  for (int octave = pitch.octave; octave < unmarked_octave; ++octave) text += ',';
  return text;
}

std::string lilypond_key(const Key& key) {
  const NoteName tonic = note_on_line_of_fifths(key.fifths + tonic_above_major(key));
  return fmt::format("\\key {} \\{}", lilypond_name(tonic), mode_name(key));
}

std::string lilypond_length(const Beats& length) { return "4*" + to_string(length); }

}  // namespace insideline::reports
