// Written by fit_labels --strength 2 from lines.tsv tuning.tsv nct_examples.tsv*25 lines_not_in_the_tree.tsv*5:
// 3871 labelled notes. Do not edit: set values by hand in score_table.cpp and fit again.
#include "analyzer/labels/fitted_values.hpp"

namespace insideline {

const std::array<int, static_cast<std::size_t>(Row::count)> fitted_values = {
    -94,  // early
    2644,  // early, tied over
    4083,  // early, struck again
    2008,  // early, before a rest
    521,  // early, left
    1551,  // early, off the beat
    -4140,  // early tension
    -661,  // early by a beat or more
    -2583,  // early, but already there
    -1569,  // early by more than a beat
    -555,  // early, left by step
    950,  // early, and already there
    -707,  // early, or a colour
    766,  // early, and the line goes on there
    5542,  // hangs over
    -423,  // carried on
    -4,  // carried on, struck again
    -968,  // carried on for long
    3585,  // carried on further
    852,  // carried on from an old tone
    -316,  // carried on, or a colour
    -1142,  // tension
    2365,  // tension held
    152,  // tension ends the phrase
    1443,  // tension left by leap
    986,  // tension reached by leap
    868,  // tension stacked
    2532,  // tension crowns an arpeggio
    810,  // tension reached by step
    1770,  // tension steps on
    629,  // tension on a strong place
    857,  // altered tension
    545,  // disputed tension
    1727,  // tension of an altered chord
    -1272,  // blue tension
    -956,  // avoided tension
    -381,  // tension of two beats
    -162,  // brief tension
    88,  // tension begins
    407,  // tension before a rest
    -1185,  // tension on the beat
    141,  // tension at a turn
    -347,  // tension in a scale
    -478,  // tension leads by half step
    1840,  // tension repeated
    626,  // tension comes back
    836,  // sixth or ninth
    174,  // tension beside tension
    281,  // tension longer than its neighbours
    -279,  // tension between leaps
    -1263,  // weak tension between steps
    -897,  // strong tension between steps
    -439,  // tension into a chord tone
    317,  // tension on the downbeat
    -2908,  // tension out of the scale
    89,  // eleventh
    1935,  // passes
    -445,  // passes unaccented
    -244,  // passes accented
    -1798,  // passes slowly
    1889,  // passes by half steps
    -610,  // passes for a beat
    -3401,  // passes for two beats
    -73,  // passes on by half step
    153,  // passes quickly
    -6108,  // chord tone on its way
    -1494,  // passes into a rest
    1347,  // passes between chord tones
    794,  // passes as a colour
    -831,  // passes on the beat
    2230,  // neighbours
    -829,  // neighbours unaccented
    -920,  // neighbours accented
    -257,  // neighbours slowly
    -472,  // neighbour of a beat
    1191,  // neighbours by half step
    -756,  // neighbours over a rest
    -1451,  // neighbours, the note changed
    272,  // neighbours as a colour
    -223,  // neighbours on the beat
    46,  // neighbours from below
    2654,  // double neighbour
    1653,  // encloses
    -224,  // encloses with three
    1167,  // encloses by half step
    836,  // enclosure lands strong
    -2314,  // encloses with a chord tone
    315,  // encloses across the change
    -1055,  // encloses slowly
    -1145,  // encloses from the beat
    737,  // approaches
    1146,  // approaches by half step
    -238,  // approaches by whole step
    -238,  // approach lands strong
    -606,  // approach on a strong place
    -86,  // approach longer than its target
    -2004,  // approach reached by step
    1273,  // approach from a blue note
    -184,  // approaches for a beat
    1418,  // approach begins
    -1752,  // approaches over a rest
    879,  // double approach
    -1700,  // double approach from a stack
    17,  // leans
    1241,  // leans on a strong place
    -471,  // leans long
    13,  // leans on a weak place
    -298,  // leans on in the same direction
    -937,  // leans briefly
    818,  // leans for a beat
    -921,  // leans after a step
    1420,  // escapes
    476,  // escapes unaccented
    -1436,  // escapes accented
    -1501,  // escapes onward
    -77,  // escapes slowly
    2099,  // pedal, repeated
    92,  // pedal in the bass
    -1834,  // unexplained
    3534,  // outside goes on
    -1327,  // outside, or a colour
    -329,  // outside between steps
    21,  // outside between leaps
    -163,  // outside for a beat
    1678,  // slips aside
    231,  // second passing tone
    -1103,  // lands on a tension
    -1604,  // leads to a note on its way
    -249,  // starts from a note on its way
    -505,  // goes back to the old chord
};

}  // namespace insideline
