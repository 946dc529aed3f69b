#include "analyzer/drills/drill_costs.hpp"

#include <array>

namespace insideline {
namespace {

constexpr std::array cost_table{
    DrillCost{Charge::turn_inside, "turn inside a chord", 3,
              "a line that keeps its direction is easier to hear and to play"},
    DrillCost{Charge::turn_at_change, "turn at the change", 2,
              "the change is the better place to turn than inside a chord"},
    DrillCost{Charge::outer_range, "note in an outer sixth of the range", 1,
              "the middle of the horn speaks best over a whole form"},
    DrillCost{
        Charge::no_guide_tone, "chord entered on another tone than third or seventh", 1,
        "third and seventh tell the chord from others (Hutchinson, Music Theory for the 21st-Century Classroom, 31.7)"},
    DrillCost{Charge::same_figure, "figure of the chord before again, but a cell within one chord", 12,
              "a figure that comes twice is soon played without thinking"},
    DrillCost{Charge::nearest_out_of_range, "nearest tone not in the range", 20000, "only where no line avoids it"},
    DrillCost{Charge::no_common_tone, "change without a common tone", 4,
              "charged where common tones are what is practised"},
    DrillCost{Charge::distance, "semitone beyond a whole step between two figures", 1,
              "near figures connect the chords"},
    DrillCost{Charge::repeated_tone, "tone struck again between two figures", 2,
              "the next figure should be heard to begin"},
    DrillCost{Charge::skipped_tone, "chord tone left out where the chord goes on", 2,
              "the line climbs the chord tone by tone"},
    DrillCost{Charge::unlike_model, "connection that the model player avoids, at most", 8,
              "scaled by how rarely the solo has it"},
    DrillCost{Charge::later_cell, "each place further down the list of cells", 1,
              "the most frequent cell of the solo is the usual one"},
    DrillCost{Charge::not_from_above, "descent that does not begin above the tone before it", 2,
              "a leap up first lets the way down begin from above"},
    DrillCost{Charge::climb_first, "two leaps up before a descent", 1000,
              "a climb before it would prepare the descent; only where no line avoids it"},
    DrillCost{Charge::step_in_descent, "a step in a descent of few notes", 60,
              "a step among three notes, as from 1 down to 7, sounds like a scale"},
    DrillCost{Charge::passes_into_enclosure, "first enclosing tone passed through", 20,
              "a tone on the way up or down to the next is heard as passing, not as enclosing"},
    DrillCost{Charge::enclosed_from_below, "enclosure that begins below", 1,
              "the tone above, then the leading tone, is the usual order"},
    DrillCost{Charge::guide_motion, "semitone of motion between two guide tones", 1,
              "guide tones are led by the least motion (Hutchinson, 31.7)"},
    DrillCost{Charge::far_cell, "semitone of a cell beyond an octave from the middle of the range", 1,
              "a cell that wanders over a wide range is hard to follow, and fits into fewer keys"},
};

}  // namespace

std::span<const DrillCost> drill_costs() { return cost_table; }

int cost_of(Charge charge) { return cost_table.at(static_cast<std::size_t>(charge)).value; }

}  // namespace insideline
