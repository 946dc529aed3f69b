// Writes labels into a score: what a lyric line, coloured heads and brackets can say, added to the
// document as it came. Every byte that was there stays where it was in relation to the others.
// Source: MusicXML 4.0, <note>, <lyric>, <notehead>, <bracket>, and the order of their elements.
#pragma once

#include "analyzer/harmony/musicxml_kind.hpp"
#include "analyzer/model/beats.hpp"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

/// What a note is labelled with each time it is played. A note that repeats bring back has several.
struct NoteInk {
  std::size_t element = 0;  ///< WrittenPlace::element
  std::string text;         ///< under the note; UTF-8
  std::string colour;       ///< of its head, "#0072B2"; empty: as it is
  Beats onset{};            ///< Note::onset
  Beats position{};         ///< WrittenPlace::position
};

/// A bracket over notes in the order they are played, with a text at its beginning.
struct BracketInk {
  std::vector<std::size_t> elements;
  std::string text;
};

/// A chord from where it sounds, at written pitch; of kind "none" where the chords stop.
struct ChordInk {
  Beats onset;
  MusicxmlChord chord;
};

struct ScoreInk {
  std::vector<NoteInk> notes;  ///< in the order they are played
  std::vector<BracketInk> brackets;
  std::vector<ChordInk> chords{};  ///< to be written as symbols, by onset
  std::vector<Beats> bars{};       ///< where the bars begin, as played
};

/// The score of `bytes`, unpacked where it is compressed, in its own encoding, with `ink` added:
///  - texts on a lyric line of their own below any other, an empty one for a grace note without a text; what differs
///    between passes is told as "3 / 5";
///  - heads coloured where all passes agree and the score has no colour there itself;
///  - chord symbols, where the part has none of its own; a bar that comes again shows those of its first time;
///  - brackets, or their text alone where the notes do not stand side by side on the page.
/// Throws ReadError where `bytes` are no MusicXML score, as parse_musicxml does.
std::string annotated_score(std::string_view bytes, std::string_view file_name, const ScoreInk& ink);

}  // namespace insideline::io
