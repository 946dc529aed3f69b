// Which voice of a tune is the solo, and in which order its bars are played.
#pragma once

#include "io/abc/abc_text.hpp"
#include "io/abc/tune_reader.hpp"
#include "io/musicxml/road_map.hpp"
#include "io/read_solo.hpp"

#include <cstddef>

namespace insideline::io {

/// By name or number where options.part asks for one, else the first with a single melodic line, else the one that
/// comes nearest. Throws ReadError that lists the voices, or where the voice has no notes.
std::size_t solo_part(const AbcText& source, const WrittenTune& tune, const ReadOptions& options);

/// The measures of part `solo` as they are played, by repeats, endings, jumps and the order of P:. Throws ReadError
/// where they never end.
PlayingOrder measures_of_tune(const AbcText& source, const WrittenTune& tune, std::size_t solo,
                              const ReadOptions& options, Notices& notices);

/// The line of that part, as options.voice numbers what & writes together. Throws ReadError.
std::size_t solo_line(const AbcText& source, const WrittenPart& part, const ReadOptions& options);

}  // namespace insideline::io
