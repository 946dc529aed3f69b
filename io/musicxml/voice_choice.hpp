// Which part of a score, and which of its voices, is the solo.
#pragma once

#include "io/musicxml/notices.hpp"
#include "io/musicxml/score_parts.hpp"
#include "io/musicxml/written_part.hpp"

#include <cstddef>
#include <optional>
#include <span>
#include <string>

namespace insideline::io {

/// By number from 1, by name or by id, whatever the case of its letters. Throws ReadError that lists the parts.
std::size_t part_named(std::span<const PartSource> parts, const std::string& wanted, const ScoreDocument& document);

struct TakenPart {
  std::size_t part = 0;
  PartTaken why = PartTaken::first_line;
};

/// The first part with a single melodic line; where there is none, the one that comes nearest.
/// Throws ReadError where no part has a note with a pitch.
TakenPart melodic_part(std::span<const WrittenPart> parts, const ScoreDocument& document);

/// The voice that carries the line: the one asked for, else the one with the fewest chords among
/// those with many notes. Throws ReadError where the part has no such voice or no notes.
std::size_t solo_voice(const WrittenPart& part, const std::optional<std::string>& wanted,
                       const ScoreDocument& document);

/// Gives the notes of other voices to `voice` where a voice never sounds together with it: some programs write the
/// second half of a bar into another voice. Such notes are noticed.
void join_voices(WrittenPart& part, std::size_t voice, Notices& notices);

}  // namespace insideline::io
