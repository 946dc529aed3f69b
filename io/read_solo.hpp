// The only door into the program for a solo: opens the file, picks the importer
// by what the bytes are, and hands back the model.
#pragma once

#include "io/midi/beats_file.hpp"
#include "io/midi/smf_fault.hpp"
#include "io/midi/subdivisions.hpp"
#include "io/read_result.hpp"

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

/// Repeats, endings, da capo and coda played out, or the page read once from left to right.
enum class RoadMap : std::uint8_t { played, as_written };

struct ReadOptions {
  std::optional<std::string> part{};   ///< name or number (from 1) of the part or track; default: the first melodic one
  std::optional<std::string> voice{};  ///< as the score numbers its voices; default: the single melodic line
  std::optional<int> transpose{};      ///< semitones from written to sounding, where the file does not say
  RoadMap road_map = RoadMap::played;
  std::optional<std::string> tune{};  ///< of an ABC file, by its number or title; default: the first with notes
  // What follows is for MIDI files.
  Damage damage = Damage::refused;           ///< whether a damaged file is read as far as it can be
  std::optional<std::string> chord_track{};  ///< name or number of a track of block chords to read the changes from
  std::vector<Grid> grids{};                 ///< the values the line is written in; empty: found out
  std::vector<TappedBeat> beats{};           ///< instead of the file's tempo and bars; empty: as the file says
  std::optional<Beats> bar_one{};  ///< where bar 1 begins, in quarters from the start of the file; default: best fit
};

/// The whole file, for who needs its bytes again after reading. Throws ReadError as read_solo does.
std::string read_solo_bytes(const std::filesystem::path& file);

/// What read_solo makes of a file with these bytes; `file_name` is for messages.
ReadResult parse_solo(std::string_view bytes, std::string_view file_name, const ReadOptions& options = {});

/// Throws ReadError: missing, a folder, empty, too large, not a score, no notes ...
ReadResult read_solo(const std::filesystem::path& file, const ReadOptions& options = {});

}  // namespace insideline::io
