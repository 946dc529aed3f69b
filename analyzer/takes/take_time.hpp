// A take in time, told from where its notes stand on the sheet, so that no click is needed: where beats were lost, the
// course of the tempo, and how even it is inside the beat.
// Tempo is the slope of a straight line through the moments of the notes (least squares), two bars at a time.
#pragma once

#include "analyzer/takes/struck_notes.hpp"
#include "analyzer/takes/take_bounds.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace insideline {

/// A place where the player came in a beat or more too late or too early.
struct TimeBreak {
  std::size_t last = 0;   ///< the attempt before it
  std::size_t next = 0;   ///< the attempt after it
  double quarters = 0.0;  ///< below zero: too early
};

struct TempoAt {
  std::string bar;  ///< the first of the bars that the tempo is taken from
  double bpm = 0.0;
};
struct TempoJump {
  std::string bar;  ///< the first one in the new tempo
  double from_bpm = 0.0;
  double to_bpm = 0.0;
};
/// Quarter notes a minute.
struct TempoCourse {
  std::vector<TempoAt> tempi;  ///< in order of playing, not empty
  double mean_bpm = 0.0;
  double start_bpm = 0.0;
  double end_bpm = 0.0;
  std::optional<double> drift_a_chorus{};  ///< where the sheet has a form that it plays once or more
  double drift_percent = 0.0;              ///< of the mean, from beginning to end, on a straight line through the tempi
  double furthest_percent = 0.0;           ///< of the mean, what strays furthest from it
  std::vector<TempoJump> jumps{};
};

/// How evenly the notes come, against the tempo that the player holds just then (four notes on either side). Off-beat
/// eighths are held against where the player's own swing puts them.
struct Evenness {
  int notes = 0;                        ///< > 2
  double tempo_bpm = 0.0;               ///< quarter notes a minute, over the whole take
  double spread_ms = 0.0;               ///< standard deviation of the onsets from where that tempo puts them
  double spread_percent = 0.0;          ///< the same in percent of a quarter note
  std::optional<double> swing_ratio{};  ///< long to short; none with too few off-beat eighths
};

struct TakeTime {
  std::vector<TimeBreak> breaks;
  std::vector<TimeBreak> hesitations;  ///< less than a beat, and far more than the unevenness of the take
  std::optional<TempoCourse> tempo;    ///< none where nothing is long enough to have a tempo
  std::optional<Evenness> evenness;    ///< none for fewer than three notes
};

/// Of a take without times, the breaks alone: its places on the page tell lost beats and nothing finer. `chorus` is the
/// length of the form, 0 for none.
TakeTime take_time(const LaidTake& laid, const TakeAlignment& alignment, const Beats& chorus,
                   const TakeBounds& bounds = {});

}  // namespace insideline
