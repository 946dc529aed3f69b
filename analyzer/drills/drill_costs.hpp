// What a practice line is charged for. The cheapest line over the whole form is printed, so this table is where a
// musician argues with the generator. All values are common practice, no source, unless a row says otherwise.
#pragma once

#include <cstdint>
#include <span>
#include <string_view>

namespace insideline {

enum class Charge : std::uint8_t {
  turn_inside,
  turn_at_change,
  outer_range,
  no_guide_tone,
  same_figure,
  nearest_out_of_range,
  no_common_tone,
  distance,
  repeated_tone,
  skipped_tone,
  unlike_model,
  later_cell,
  not_from_above,
  climb_first,
  step_in_descent,
  passes_into_enclosure,
  enclosed_from_below,
  guide_motion,
  far_cell
};

struct DrillCost {
  Charge charge;
  std::string_view name;
  int value;  ///< added each time it applies
  std::string_view reason;
};

/// One row a charge, in the order of the enum.
std::span<const DrillCost> drill_costs();

int cost_of(Charge charge);

}  // namespace insideline
