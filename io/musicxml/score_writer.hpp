// Writes a line as a plain MusicXML score: title, tempo, key, meter, chord symbols, and one staff of notes.
// Source: MusicXML 4.0, W3C Music Notation Community Group, final report.
#pragma once

#include "analyzer/model/changes.hpp"
#include "analyzer/model/solo.hpp"

#include <cstddef>
#include <string>
#include <vector>

namespace insideline::io {

enum class ScorePitch : std::uint8_t { sounding, written };

/// A small note in brackets beside note `note`: another choice for the player, which readers leave out.
struct CueNote {
  std::size_t note = 0;  ///< into Solo::notes
  Pitch pitch;           ///< sounding
};

/// Words over the first note of a bar, which a double bar line parts from the bar before.
struct ScoreHeading {
  std::size_t bar = 0;  ///< into Solo::bars
  std::string text;
};

struct ScoreWriteOptions {
  ScorePitch pitch = ScorePitch::sounding;  ///< written: the score says how it transposes
  std::vector<CueNote> cues;                ///< in order
  std::vector<ScoreHeading> headings{};     ///< in order
  std::vector<std::string> under;           ///< a text under each note; empty, or parallel to Solo::notes
};

/// A whole score, partwise. `solo.bars` is not empty, and no note is a grace note.
std::string write_musicxml(const Solo& solo, const Harmony& harmony, const ScoreWriteOptions& options = {});

}  // namespace insideline::io
