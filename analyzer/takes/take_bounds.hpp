// Where a judgement of a take draws its lines. None of them has a source: they are common practice among teachers, and
// stand here so that each can be seen and argued with.
#pragma once

namespace insideline {

struct TakeBounds {
  double stop_quarters = 0.75;  ///< a note so much too late or too early: nearer to a lost beat than to none
  double stop_share = 0.05;     ///< and so much of the time since the note before, as long rests are counted loosely
  double tempo_band_percent = 5.0;   ///< from the tempo of the take, two bars at a time: at 120, from 114 to 126
  double drift_percent = 5.0;        ///< from beginning to end; less is hardly heard as rushing or dragging
  double jump_percent = 8.0;         ///< from two bars to the next two: a new tempo and no drift
  double jump_sharpness = 0.85;      ///< so much of a jump lies between one bar and the next, else it is drift
  double hesitation_quarters = 0.3;  ///< a note so much too late or too early, but no beat lost
  double even_percent = 5.0;         ///< of a quarter note: a 64th at most
  double uneven_percent = 12.0;      ///< of a quarter note: a 32nd; beyond it eighths limp
  int notes_an_added_one = 20;       ///< more than one added note in so many is playing something else
  int fewest_in_pattern = 8;         ///< notes; fewer are an accident and no pattern
  int fewest_in_window = 8;          ///< notes that a tempo is taken from
  int window_bars = 2;
};

}  // namespace insideline
