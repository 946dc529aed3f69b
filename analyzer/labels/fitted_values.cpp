// Written by fit_labels --strength 2 from lines.tsv tuning.tsv nct_examples.tsv*25 lines_not_in_the_tree.tsv*4:
// 3871 labelled notes. Do not edit: set values by hand in score_table.cpp and fit again.
#include "analyzer/labels/fitted_values.hpp"

namespace insideline {

const std::array<int, static_cast<std::size_t>(Row::count)> fitted_values = {
    -112,  // early
    2508,  // early, tied over
    3847,  // early, struck again
    2022,  // early, before a rest
    310,  // early, left
    1328,  // early, off the beat
    -3666,  // early tension
    -884,  // early by a beat or more
    -2419,  // early, but already there
    -1242,  // early by more than a beat
    -534,  // early, left by step
    942,  // early, and already there
    -714,  // early, or a colour
    598,  // early, and the line goes on there
    898,  // early, reached by leap
    5300,  // hangs over
    -503,  // carried on
    123,  // carried on, struck again
    -864,  // carried on for long
    3295,  // carried on further
    807,  // carried on from an old tone
    -298,  // carried on, or a colour
    -1243,  // tension
    2243,  // tension held
    379,  // tension ends the phrase
    1400,  // tension left by leap
    903,  // tension reached by leap
    861,  // tension stacked
    2373,  // tension crowns an arpeggio
    519,  // tension reached by step
    1259,  // tension steps on
    649,  // tension on a strong place
    653,  // altered tension
    538,  // disputed tension
    1593,  // tension of an altered chord
    -1429,  // blue tension
    -1027,  // avoided tension
    -242,  // tension of two beats
    -218,  // brief tension
    -66,  // tension begins
    326,  // tension before a rest
    -1020,  // tension on the beat
    146,  // tension at a turn
    -206,  // tension in a scale
    -432,  // tension leads by half step
    1529,  // tension repeated
    171,  // tension comes back
    589,  // sixth or ninth
    780,  // sixth
    553,  // blue third
    823,  // tension in a riff
    755,  // tension off the grid of eighths
    375,  // tension falls on
    318,  // tension beside tension
    156,  // tension longer than its neighbours
    -233,  // tension between leaps
    -1116,  // weak tension between steps
    -696,  // strong tension between steps
    -212,  // tension into a chord tone
    365,  // tension on the downbeat
    -2745,  // tension out of the scale
    156,  // eleventh
    1837,  // passes
    -296,  // passes unaccented
    -62,  // passes accented
    -1798,  // passes slowly
    1706,  // passes by half steps
    -500,  // passes for a beat
    -3201,  // passes for two beats
    -198,  // passes on by half step
    110,  // passes quickly
    -5593,  // chord tone on its way
    -1435,  // passes into a rest
    1229,  // passes between chord tones
    887,  // passes as a colour
    -756,  // passes on the beat
    2280,  // neighbours
    -667,  // neighbours unaccented
    -827,  // neighbours accented
    -461,  // neighbours slowly
    -544,  // neighbour of a beat
    1056,  // neighbours by half step
    -725,  // neighbours over a rest
    -1524,  // neighbours, the note changed
    294,  // neighbours as a colour
    -109,  // neighbours on the beat
    -237,  // neighbours from below
    2613,  // double neighbour
    1525,  // encloses
    -242,  // encloses with three
    1027,  // encloses by half step
    799,  // enclosure lands strong
    -2201,  // encloses with a chord tone
    344,  // encloses across the change
    -1014,  // encloses slowly
    -1056,  // encloses from the beat
    743,  // approaches
    1055,  // approaches by half step
    -152,  // approaches by whole step
    -180,  // approach lands strong
    -572,  // approach on a strong place
    -131,  // approach longer than its target
    -1937,  // approach reached by step
    1527,  // approach from a blue note
    -245,  // approaches for a beat
    1284,  // approach begins
    -1653,  // approaches over a rest
    846,  // double approach
    -1600,  // double approach from a stack
    64,  // leans
    1246,  // leans on a strong place
    -433,  // leans long
    11,  // leans on a weak place
    -251,  // leans on in the same direction
    -972,  // leans briefly
    679,  // leans for a beat
    -919,  // leans after a step
    1298,  // escapes
    358,  // escapes unaccented
    -1301,  // escapes accented
    -1475,  // escapes onward
    -167,  // escapes slowly
    2229,  // pedal, repeated
    101,  // pedal in the bass
    -1755,  // unexplained
    3266,  // outside goes on
    -1263,  // outside, or a colour
    -284,  // outside between steps
    235,  // outside between leaps
    -186,  // outside for a beat
    1510,  // slips aside
    92,  // second passing tone
    -1223,  // lands on a tension
    -1634,  // leads to a note on its way
    -317,  // starts from a note on its way
    -355,  // goes back to the old chord
};

}  // namespace insideline
