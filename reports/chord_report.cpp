#include "reports/chord_report.hpp"

#include "analyzer/harmony/academic_label.hpp"
#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/harmony/musicxml_kind.hpp"
#include "analyzer/harmony/slash_chord.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/wording.hpp"

#include <algorithm>
#include <cstddef>
#include <vector>

#include <fmt/core.h>

namespace insideline::reports {
namespace {

constexpr std::size_t heading_width = 18;  // two spaces of indent included
constexpr std::size_t column_width = 6;
constexpr std::size_t degrees_in_a_row = (page_width - heading_width) / column_width;

std::string heading(std::string_view text) { return padded_right("  " + std::string(text), heading_width); }

std::string line(const std::string& text) { return text.substr(0, text.find_last_not_of(' ') + 1) + "\n"; }

/// Degrees above, note names below; a chord with more members than a line holds goes on below.
std::string members(std::string_view title, const std::vector<Degree>& degrees, const NoteName& root) {
  if (degrees.empty()) return line(heading(title) + "none");
  std::string text;
  for (std::size_t first = 0; first < degrees.size(); first += degrees_in_a_row) {
    std::string numbers = heading(first == 0 ? title : "");
    std::string names = heading("");
    const std::size_t end = std::min(degrees.size(), first + degrees_in_a_row);
    for (std::size_t i = first; i < end; ++i) {
      numbers += padded_right(to_string(degrees[i]), column_width);
      names += padded_right(to_string(note_at(root, degrees[i])), column_width);
    }
    text += line(numbers) + line(names);
  }
  return text;
}

std::string change_text(const KindDegree& change) {
  const std::string alter = change.alter == 0 ? "" : fmt::format(" ({:+})", change.alter);
  switch (change.change) {
    case DegreeChange::add: return fmt::format("add {}{}", change.value, alter);
    case DegreeChange::alter: return fmt::format("alter {}{}", change.value, alter);
    case DegreeChange::subtract: return fmt::format("subtract {}", change.value);
  }
  return {};
}

std::string musicxml_text(const Chord& chord) {
  const MusicxmlChord element = musicxml_from_chord(chord);
  std::string text = element.kind;
  for (const KindDegree& change : element.degrees) text += ", " + change_text(change);
  return text;
}

/// A row of one text, broken between words under its own heading.
std::string row(std::string_view title, const std::string& text) {
  const std::string indented = paragraph(text, heading_width);
  return heading(title) + indented.substr(heading_width);
}

std::string kind_text(const Chord& chord) {
  const ChordQuality kind = quality(chord);
  return kind == ChordQuality::other ? "none of the usual ones" : to_string(kind);
}

}  // namespace

std::string chord_report(const Chord& chord, Colour colour) {
  std::string text = painted(printable(chord.symbol), Ink::title, colour) + "\n";
  text += members("tones", chord.tones, chord.root);
  text += members("tensions", chord.tensions, chord.root);
  text += members("to avoid", chord.avoid, chord.root);
  text += members("guide tones", guide_tones(chord), chord.root);
  if (chord.bass) {
    const bool tone = tone_with(chord, pitch_class(*chord.bass)).has_value();
    text += row("bass", to_string(*chord.bass) + (tone ? ", a tone of the chord" : ", not a tone of the chord"));
  }
  if (const auto heard = suspended_over_bass(chord)) text += row("heard as", *heard);
  text += row("quality", kind_text(chord));
  text += row("plainly", canonical_symbol(chord));
  text += row("academic label", academic_label(chord));
  text += row("in MusicXML", musicxml_text(chord));
  return text;
}

std::string no_chord_report(std::string_view symbol, Colour colour) {
  return painted(printable(symbol), Ink::title, colour) + "\n" + row("no chord", "the notes under it are not labelled");
}

}  // namespace insideline::reports
