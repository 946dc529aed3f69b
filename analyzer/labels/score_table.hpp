// The one table of scores: every row is a reason for or against hearing a note in a
// certain way, with a value a musician can argue with. Values are in natural log units:
// a reading that scores 1 more is e times as likely. The rows come from the sources named, with a value
// by hand; what counts is the fitted value beside it (fitted_values.cpp, written by tests/labelled/fit).
#pragma once

#include "analyzer/labels/reading.hpp"

#include <cstdint>
#include <string_view>
#include <vector>

namespace insideline {

enum class Row : std::uint8_t {
  early,
  early_tied_over,
  early_mostly_over,
  early_struck_again,
  early_before_rest,
  early_unconfirmed,
  early_off_beat,
  early_tension,
  early_far,
  early_already_there,
  early_two_beats,
  early_left_by_step,
  early_goes_on,
  early_also_colour,
  early_leads_in,
  early_by_leap,
  hangs_over,
  carried_on,
  carried_struck_again,
  carried_late,
  carried_goes_on,
  carried_from_old_tone,
  carried_also_colour,
  tension,
  tension_held,
  tension_ends_phrase,
  tension_left_by_leap,
  tension_reached_by_leap,
  tension_stacked,
  tension_crowns,
  tension_reached_by_step,
  tension_steps_on,
  tension_on_strong_place,
  tension_altered,
  tension_disputed,
  tension_asked_for,
  tension_blue,
  tension_avoided,
  tension_long,
  tension_brief,
  tension_after_rest,
  tension_before_rest,
  tension_on_beat,
  tension_turns,
  tension_goes_on,
  tension_half_step_on,
  tension_repeated,
  tension_returns,
  tension_sixth_or_ninth,
  tension_sixth,
  tension_blue_third,
  tension_riff,
  tension_triplet,
  tension_down,
  tension_beside_tension,
  tension_slow,
  tension_between_leaps,
  tension_steps_weak,
  tension_steps_strong,
  tension_into_tone,
  tension_on_downbeat,
  tension_foreign,
  tension_eleventh,
  passing,
  passing_unaccented,
  passing_accented,
  passing_long,
  passing_chromatic,
  passing_held,
  passing_two_beats,
  passing_half_step,
  passing_brief,
  on_its_way,
  passing_before_rest,
  passing_between_tones,
  passing_colour,
  passing_on_beat,
  neighbour,
  neighbour_unaccented,
  neighbour_accented,
  neighbour_long,
  neighbour_held,
  neighbour_half_step,
  neighbour_before_rest,
  neighbour_changed,
  neighbour_colour,
  neighbour_on_beat,
  neighbour_below,
  double_neighbour,
  enclosure,
  enclosure_of_three,
  enclosure_half_step,
  enclosure_lands_strong,
  enclosure_with_chord_tone,
  enclosure_across_change,
  enclosure_held,
  enclosure_on_beat,
  approach,
  approach_half_step,
  approach_whole_step,
  approach_lands_strong,
  approach_on_strong_place,
  approach_longer_than_target,
  approach_by_step,
  approach_blue,
  approach_held,
  approach_after_rest,
  approach_before_rest,
  double_approach,
  double_approach_from_stack,
  appoggiatura,
  appoggiatura_accented,
  appoggiatura_longer,
  appoggiatura_weak,
  appoggiatura_same_way,
  appoggiatura_brief,
  appoggiatura_held,
  appoggiatura_by_step,
  escape,
  escape_unaccented,
  escape_accented,
  escape_same_way,
  escape_held,
  pedal_repeated,
  pedal_in_bass,
  unexplained,
  outside_goes_on,
  outside_colour,
  outside_by_step,
  outside_by_leap,
  outside_held,
  outside_slips,
  second_passing,
  lands_on_tension,
  leads_to_motion,
  starts_from_motion,
  goes_back_to_old_chord,
  count
};

struct ScoreRow {
  Row row;
  std::string_view name;
  double by_hand;  ///< a musician's guess: where the fit starts from and what it is drawn back to
  std::string_view why;
};

const ScoreRow& score_row(Row row);

/// What the row adds, as fitted, in thousandths of a natural log unit: whole numbers, so that two readings of the same
/// score are a tie on every computer.
int score_value(Row row);

constexpr double per_log_unit = 1000.0;

}  // namespace insideline
