#include "analyzer/labels/joint.hpp"

#include <algorithm>
#include <bit>
#include <cmath>

namespace insideline {
namespace {

/// The rows between two notes, in the order they are told. Each is a bit in a set of them.
constexpr std::array<Row, joint_row_count> rows_between_notes = {
    Row::second_passing,         Row::leads_to_motion,        Row::starts_from_motion,
    Row::lands_on_tension,       Row::tension_beside_tension, Row::outside_goes_on,
    Row::goes_back_to_old_chord, Row::early_goes_on,          Row::carried_goes_on};

constexpr JointRows bit_of(Row row) {
  const auto place = std::ranges::find(rows_between_notes, row) - rows_between_notes.begin();
  return static_cast<JointRows>(1U << static_cast<unsigned>(place));
}

/// What a reading asks of a row between two notes, as the first of the two and as the second: a row applies where
/// both sides and the place allow it.
struct Sides {
  constexpr void first_if(bool applies, Row row) { first |= applies ? bit_of(row) : JointRows{}; }
  constexpr void second_if(bool applies, Row row) { second |= applies ? bit_of(row) : JointRows{}; }

  JointRows first = 0;
  JointRows second = 0;
};

constexpr Sides sides_of_kind(const Reading& reading) {
  const bool passes = reading.motive == Motive::passing;
  const bool colours = reading.motive == Motive::tension;
  const bool outside = reading.motive == Motive::unexplained;
  Sides sides;
  sides.first_if(passes, Row::second_passing);
  sides.second_if(passes, Row::second_passing);
  sides.first_if(needs_target(reading), Row::leads_to_motion);
  sides.second_if(!is_stable(reading), Row::leads_to_motion);
  sides.first_if(!is_stable(reading), Row::starts_from_motion);
  sides.second_if(needs_start(reading), Row::starts_from_motion);
  sides.first_if(needs_target(reading), Row::lands_on_tension);
  sides.second_if(colours, Row::lands_on_tension);
  sides.first_if(outside, Row::outside_goes_on);
  sides.second_if(outside, Row::outside_goes_on);
  sides.first_if(colours, Row::tension_beside_tension);
  sides.second_if(colours, Row::tension_beside_tension);
  sides.first_if(reading.against == Against::next, Row::goes_back_to_old_chord);
  sides.second_if(reading.against == Against::sounding, Row::goes_back_to_old_chord);
  sides.first_if(reading.against == Against::next, Row::early_goes_on);
  sides.second_if(reading.against == Against::next, Row::early_goes_on);
  sides.first_if(reading.against == Against::previous, Row::carried_goes_on);
  sides.second_if(reading.against == Against::previous, Row::carried_goes_on);
  return sides;
}

constexpr std::size_t chords_heard = static_cast<std::size_t>(Against::previous) + 1;

constexpr std::size_t kind_of(const Reading& reading) {
  return static_cast<std::size_t>(reading.motive) * chords_heard + static_cast<std::size_t>(reading.against);
}

constexpr auto sides_by_kind = [] {
  std::array<Sides, motive_count * chords_heard> sides{};
  for (std::size_t kind = 0; kind < sides.size(); ++kind)
    sides[kind] = sides_of_kind(
        {.motive = static_cast<Motive>(kind / chords_heard), .against = static_cast<Against>(kind % chords_heard)});
  return sides;
}();

/// Of the three rows about motion that meets motion only the first that applies.
constexpr JointRows first_of_motion(JointRows rows) {
  constexpr JointRows motion =
      bit_of(Row::second_passing) | bit_of(Row::leads_to_motion) | bit_of(Row::starts_from_motion);
  const unsigned met = rows & motion;
  return static_cast<JointRows>((rows & ~unsigned{motion}) | (met & (~met + 1U)));
}

/// By set of rows: what the first of motion and all others make together.
const JointWeights& joint_weights() {
  static const auto weights = [] {
    JointWeights products{1.0};
    for (std::size_t row = 0; row < joint_row_count; ++row) {
      const std::size_t bit = std::size_t{1} << row;
      const double weight = std::exp(score_value(rows_between_notes[row]) / per_log_unit);
      for (std::size_t below = 0; below < bit; ++below) products[bit | below] = products[below] * weight;
    }
    JointWeights result{};
    for (std::size_t rows = 0; rows < result.size(); ++rows)
      result[rows] = products[first_of_motion(static_cast<JointRows>(rows))];
    return result;
  }();
  return weights;
}

constexpr JointRows asked_as_first(const Reading& from) { return sides_by_kind[kind_of(from)].first; }
constexpr JointRows asked_as_second(const Reading& to) { return sides_by_kind[kind_of(to)].second; }

bool is_begun(const Reading& reading) { return reading.part + 1 != reading.parts; }
bool goes_on_with(const Reading& reading) { return reading.part > 0; }

}  // namespace

Joint::Joint(const Chain& chain, std::size_t index)
    : same_pitch_(chain[index].same_before), allowed_((1U << joint_row_count) - 1), weights_(joint_weights()) {
  constexpr JointRows asks_for_leap = bit_of(Row::tension_beside_tension);
  constexpr JointRows asks_for_old_chord = bit_of(Row::goes_back_to_old_chord) | bit_of(Row::early_goes_on);
  const NoteContext& here = chain[index];
  const bool leaps_in = here.in && !here.in->step;
  if (!leaps_in) allowed_ &= static_cast<JointRows>(~unsigned{asks_for_leap});
  if (chain[index - 1].next != here.next) allowed_ &= static_cast<JointRows>(~unsigned{asks_for_old_chord});
}

JointRows Joint::met(const Reading& from, const Reading& to) const {
  const bool one_figure = to.part > 0 || (same_pitch_ && from == to);
  return one_figure ? JointRows{} : static_cast<JointRows>(asked_as_first(from) & asked_as_second(to) & allowed_);
}

JointRows Joint::rows(const Reading& from, const Reading& to) const { return first_of_motion(met(from, to)); }

void Joint::weigh(std::span<const Reading> all_from, std::span<const Reading> all_to, double* pair) const {
  const bool all_meet =
      !same_pitch_ && std::ranges::none_of(all_from, is_begun) && std::ranges::none_of(all_to, goes_on_with);
  for (const Reading& to : all_to) {
    const unsigned asked = allowed_ & asked_as_second(to);
    if (all_meet)
      for (const Reading& from : all_from) *pair++ = weights_[asked & asked_as_first(from)];
    else
      for (const Reading& from : all_from) *pair++ = may_follow(from, to, same_pitch_) ? weights_[met(from, to)] : 0.0;
  }
}

std::vector<Row> rows_between(const Reading& from, const Reading& to, const Chain& chain, std::size_t index) {
  std::vector<Row> rows;
  for (unsigned left = Joint(chain, index).rows(from, to); left != 0; left &= left - 1)
    rows.push_back(rows_between_notes[static_cast<std::size_t>(std::countr_zero(left))]);
  return rows;
}

}  // namespace insideline
