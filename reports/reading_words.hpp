// In which pitch the names of a report are, in words.
#pragma once

#include "reports/report.hpp"

#include <string>

namespace insideline::reports {

/// For the head of a report: "Names are in the written pitch of the alto saxophone, 9 semitones above what it sounds."
/// and what was done to bring the line into its range.
std::string reading_sentences(const Report& report);

/// "in concert pitch", "in the written pitch of the alto saxophone".
std::string pitch_of(const Instrument& instrument);

/// "an octave lower than played"; empty where the line stays.
std::string moved_in_words(const Reading& reading);

/// "3 notes lie outside its range, Bb3 to F6"; empty where none does.
std::string outside_in_words(const Reading& reading);

/// For the head of a sheet: "Alto saxophone, in written pitch, an octave lower than played"; `part` is the name of the
/// part in the source.
std::string reader_in_short(const Report& report, const std::string& part);

/// The MIDI number that sounds where the report has `pitch`.
int sounding_midi(const Reading& reading, const Pitch& pitch);

}  // namespace insideline::reports
