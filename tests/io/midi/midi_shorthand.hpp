// MIDI files made from the melody shorthand, and from fingers that play it.
#pragma once

#include "analyzer/model/solo.hpp"
#include "io/read_result.hpp"
#include "io/read_solo.hpp"
#include "tests/support/human_timing.hpp"

#include <string>
#include <string_view>
#include <vector>

namespace insideline::tests {

struct TrackOfNotes {
  std::string name;
  std::string notes;  ///< "C4@0+480 E4@480+480": pitch, onset and length in ticks, at 480 ticks a quarter
  int channel = 1;
  std::vector<std::string> events;  ///< further events in hexadecimal, time first: "00 C042"
};

/// A format-1 file at 480 ticks a quarter.
std::string midi_file(const std::vector<TrackOfNotes>& tracks);

/// A solo as somebody plays it, with tempo and meter in the file, at 960 ticks a quarter.
std::string performed_file(const Solo& solo, const Take& take);

/// Where bar 1 of the solo lies in that file, in quarters.
Beats bar_one_in_performed_file(const Solo& solo);

io::ReadResult read_midi(std::string_view bytes, const io::ReadOptions& options = {});

/// "C4@0+1 E4@1+1/2 (G4@3/2)": the notes of a solo in concert pitch; grace notes in brackets.
std::string notes_of(const Solo& solo);

/// All warnings, one a line.
std::string warnings_of(const io::ReadResult& result);

}  // namespace insideline::tests
