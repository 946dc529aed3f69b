// What people type into a chart beside the plain form: a title on the first line, commas, parentheses, bar numbers,
// small letters for roots. Each is taken only where the plain reading fails, so that no chart changes its meaning.
#pragma once

#include "io/changes/chart_text.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

/// The first of `lines` where it is a title: no header, without bar lines, most of its words no chords, and bar lines
/// further down.
std::optional<ChartLine> title_line(const std::vector<ChartLine>& lines);

/// "A" of a line such as "A: | C | F |" or "Bridge:", whose word is none of the `known` headers.
std::optional<std::string_view> section_label(const ChartLine& line, const std::vector<std::string_view>& known);

/// The words of a bar without the commas and parentheses between chords: "(Dm7, G7)" is two chords. A number in front
/// that is `bar`, the bar's own, and stands apart from the bar line is left out.
std::vector<Sign> plain_words(const ChartText& chart, const std::vector<Sign>& words, int bar);

/// "Bb7" for "bb7"; none for a word without a small letter from a to g in front, and for one that is read as it stands:
/// "am7" says that it is minor.
std::optional<std::string> with_capital_root(std::string_view word);

/// One more beat of the chord before for each dot or slash: ".", "/", "...", "///", "x" and "-".
bool is_beats(std::string_view word);

/// "%", also typed as "./.": the bar before once more.
bool is_repeated_bar(std::string_view word);

/// "x" and "-" let the chord before sound on.
bool is_hold(std::string_view word);

}  // namespace insideline::io
