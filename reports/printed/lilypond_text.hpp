// Text and numbers as LilyPond reads them. LilyPond runs the code in its input, so text
// from a file reaches it only through `lilypond_string`: within the quotes nothing is run.
// Source: LilyPond 2.24 Notation Reference, "Pitches", "Durations", "Text markup", "Strings".
#pragma once

#include "analyzer/model/beats.hpp"
#include "analyzer/model/changes.hpp"
#include "analyzer/model/pitch.hpp"

#include <cstddef>
#include <string>
#include <string_view>

namespace insideline::reports {

/// `text` as a string literal, on one line; bytes that are not UTF-8 and control
/// characters are replaced.
std::string lilypond_string(std::string_view text);

/// `text` cut to at most `width` columns, an ellipsis in place of what is cut; a word of
/// more than half that width is parted so that it can wrap.
std::string fitted(std::string_view text, std::size_t width);

/// "bes", "fisis"; an alteration of more than two semitones is not written in music.
std::string lilypond_name(const NoteName& name);
/// "bes'": c' is C4. A pitch that needs more than a double accidental is respelled.
std::string lilypond_pitch(const Pitch& asked);
/// "\key ees \major".
std::string lilypond_key(const Key& key);
/// A length for a row of text: "4*1/2" is an eighth.
std::string lilypond_length(const Beats& length);

}  // namespace insideline::reports
