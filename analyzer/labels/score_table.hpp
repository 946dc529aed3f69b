// The one table of scores: every row is a reason for or against hearing a note in a
// certain way, with a value a musician can argue with. Values are in natural log units:
// a reading that scores 1 more is e times as likely. They are tuned by ear and on the
// labelled lines in tests/labelled/; the rows themselves come from the sources named.
#pragma once

#include "analyzer/labels/reading.hpp"

#include <cstdint>
#include <string_view>
#include <vector>

namespace insideline {

enum class Row : std::uint8_t {
  early,
  early_tied_over,
  early_struck_again,
  early_before_rest,
  early_unconfirmed,
  early_off_beat,
  early_tension,
  early_far,
  early_already_there,
  hangs_over,
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
  passing,
  passing_unaccented,
  passing_accented,
  passing_long,
  passing_chromatic,
  neighbour,
  neighbour_unaccented,
  neighbour_accented,
  neighbour_long,
  double_neighbour,
  enclosure,
  enclosure_of_three,
  enclosure_half_step,
  enclosure_lands_strong,
  enclosure_with_chord_tone,
  approach,
  approach_half_step,
  approach_whole_step,
  approach_lands_strong,
  approach_on_strong_place,
  approach_longer_than_target,
  approach_by_step,
  approach_blue,
  double_approach,
  double_approach_from_stack,
  appoggiatura,
  appoggiatura_accented,
  appoggiatura_longer,
  appoggiatura_weak,
  appoggiatura_same_way,
  escape,
  escape_unaccented,
  escape_accented,
  escape_same_way,
  pedal_repeated,
  pedal_in_bass,
  unexplained,
  second_passing,
  lands_on_tension,
  goes_back_to_old_chord,
  count
};

struct ScoreRow {
  Row row;
  std::string_view name;
  double value;
  std::string_view why;
};

const ScoreRow& score_row(Row row);

/// The rows that speak for or against `reading` of note `index`, in table order.
std::vector<Row> rows_for(const Reading& reading, const Chain& chain, std::size_t index);
/// The sum of those rows.
double reading_score(const Reading& reading, const Chain& chain, std::size_t index);

/// The rows for note `index` read as `to` after the note before it read as `from`.
std::vector<Row> rows_between(const Reading& from, const Reading& to, const Chain& chain, std::size_t index);
double transition_score(const Reading& from, const Reading& to, const Chain& chain, std::size_t index);

}  // namespace insideline
