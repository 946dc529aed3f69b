// What every report is made from: the solo, the results beside it, and where
// they come from. Reports decide no music; a number they need is computed in analyzer/.
#pragma once

#include "analyzer/alignment_doctor.hpp"
#include "analyzer/analysis.hpp"
#include "analyzer/bar_one.hpp"
#include "analyzer/drills/instruments.hpp"
#include "analyzer/model/solo.hpp"
#include "analyzer/settings.hpp"
#include "reports/from_sound.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace insideline::reports {

/// Why the part that was read is the one.
enum class PartChoice : std::uint8_t { asked_for, only_one, first_line, nearest_line };

struct Source {
  std::string solo_file;           ///< file name without its folder
  std::string changes_file;        ///< file name, "in score", "in markers" or "in chord track"
  bool has_own_symbols = false;    ///< the score has chord symbols, whichever changes were taken
  std::string changes_title;       ///< of the chart, where it has one
  std::optional<Key> changes_key;  ///< of the chart at sounding pitch, where it names one
  std::string hearing_file;        ///< file name of what a listener says of single notes; empty: nobody said anything
  std::string section;             ///< "bars 9 to 16" where only a part of the solo is looked at
  PartChoice part_choice = PartChoice::first_line;
};

/// How a chart that goes round lies under the solo.
struct ChartAlignment {
  int start_bar = 1;                      ///< the bar of the solo on bar 1 of the chart
  std::optional<BarOneChoice> bar_one;    ///< where a recording had bars that could have been a count-in
  std::optional<AlignmentAdvice> better;  ///< a place that fits clearly better
};

/// Whose pitch the names are in.
enum class ReadBy : std::uint8_t { everybody, player_of_the_part, player_of_an_instrument };

/// The pitch of all names and notes of a report, and how they came to it.
struct Reading {
  ReadBy reader = ReadBy::everybody;     ///< everybody reads concert pitch
  Interval above_sounding;               ///< what all pitches of the report were moved by
  std::optional<Instrument> instrument;  ///< whose player it is, where one was named
  int octaves = 0;                       ///< of that, moved to bring the line into the range of the instrument
  int notes_outside = 0;                 ///< of that range all the same
};

struct Report {
  Source source;
  std::optional<ChartAlignment> alignment;  ///< none where the chords are written over the solo itself
  Settings settings;                        ///< of the analysis
  Reading reading;
  Solo solo;                            ///< as it is read; `Note::written` is what the source has
  Analysis analysis;                    ///< of that
  std::optional<FromSound> from_sound;  ///< where the line was heard and not read
  std::vector<std::string> warnings;    ///< of reading and of the analysis, in order
};

}  // namespace insideline::reports
