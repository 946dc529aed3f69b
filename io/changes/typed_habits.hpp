// What people type into a chart beside the plain form: a title on the first line, commas, parentheses, bar numbers,
// small letters for roots. Each is taken only where the plain reading fails, so that no chart changes its meaning.
#pragma once

#include "io/changes/chart_text.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

/// The lines of words above the first bars: no headers, without bar lines, most of their words no chords.
struct TextAbove {
  std::optional<ChartLine> title;  ///< the first of them
  std::vector<ChartLine> others;   ///< say nothing about the music
};

/// Takes them out of `lines`.
TextAbove take_text_above(std::vector<ChartLine>& lines);

/// Words without a bar line, one of which is neither a chord nor a sign of a chart.
bool is_prose(std::string_view text);

/// "A" of a line such as "A: | C | F |" or "Bridge:", whose word is none of the `known` headers.
std::optional<std::string_view> section_label(const ChartLine& line, const std::vector<std::string_view>& known);

/// The words of a bar without the commas and parentheses between chords: "(Dm7, G7)" is two chords. A number in front
/// that is `bar`, the bar's own, is left out where it cannot be an ending: apart from its bar line or without repeats.
std::vector<Sign> plain_words(const ChartText& chart, const std::vector<Sign>& words, int bar);

/// "Bb7" for "bb7"; none for a word without a small letter from a to g in front, and for one that is read as it stands:
/// "am7" says that it is minor.
std::optional<std::string> with_capital_root(std::string_view word);

/// A chord symbol without the blanks outside its parentheses: "Cmin7" for "C min7".
std::string in_one_word(std::string_view word);

/// "Dm7" as the name of a section, but neither "A" nor "A2".
bool names_a_chord(std::string_view section);

/// How many ( of the word wait for their ); below zero for a ) that waits for its (.
int brackets_left_open(std::string_view word);

/// Whether the word is a chord, also with dots behind it.
bool reads_as_chord(std::string_view word);

/// A chord, also one with a small letter as root, or what stands for one in a bar.
bool reads_as_bar_sign(std::string_view word);

/// One more beat of the chord before for each dot or slash: ".", "/", "...", "///", "x" and "-".
bool is_beats(std::string_view word);

/// "%", also typed as "./.": the bar before once more.
bool is_repeated_bar(std::string_view word);

/// "x" and "-" let the chord before sound on.
bool is_hold(std::string_view word);

}  // namespace insideline::io
