// Small scores for the tests, typed as one line: bars between "|", and in them
//   C4:1 Bb3:1/2      notes with their length in quarters, C4:0 a grace note
//   r:2               a rest            +E4:1     sounds together with the note before
//   C4:1~ ~C4:1       a tie             C4:1@2    a note of voice 2
//   back:4            a backup          {<xml/>}  anything else, as it stands
// Every score has 12 divisions and begins in 4/4 unless its first bar says otherwise.
#pragma once

#include "io/musicxml/musicxml.hpp"

#include <string>
#include <string_view>

namespace insideline::tests {

/// One part with the bars of `line`.
std::string part_xml(std::string_view line, std::string_view id = "P1");

/// A whole partwise score with one part, "Solo".
std::string score_xml(std::string_view line);

/// A score around parts that are already XML; `names` are their names in the part list, P1, P2 ...
std::string score_of_parts(std::string_view parts, std::initializer_list<std::string_view> names);

io::ReadResult read_line(std::string_view line, const io::ReadOptions& options = {});

/// "C4@0:1 E4@1:1/2": sounding pitch, onset and duration of each note; grace notes have no duration.
std::string notes_of(const io::ReadResult& score);
/// "Cmaj7@0:4 N.C.@4:4".
std::string chords_of(const io::ReadResult& score);
/// "0@-1:1 1@0:4": number, onset and length of each bar.
std::string bars_of(const io::ReadResult& score);
/// The numbers printed on the page of the bars the notes come from: "1 2 1 2 3".
std::string written_bars_of(const io::ReadResult& score);
/// All warnings, a line each.
std::string warning_lines(const io::ReadResult& score);
/// The message of the ReadError that reading `bytes` throws; empty where it throws none.
std::string refusal_of(std::string_view bytes, const io::ReadOptions& options = {});

/// The bytes of a file of tests/.
std::string test_file(std::string_view name);

}  // namespace insideline::tests
