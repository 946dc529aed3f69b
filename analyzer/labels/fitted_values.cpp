// Written by fit_labels --strength 2 --temperature 0.8 from lines.tsv tuning.tsv*2 nct_examples.tsv*18
// lines_not_in_the_tree.tsv*4: 3869 labelled notes. Do not edit: set values by hand in score_table.cpp and fit again.
#include "analyzer/labels/fitted_values.hpp"

namespace insideline {

const std::array<int, static_cast<std::size_t>(Row::count)> fitted_values = {
    -1162,  // early
    2123,   // early, tied over
    602,    // early, mostly heard over its chord
    3998,   // early, struck again
    2213,   // early, before a rest
    -696,   // early, left
    1283,   // early, off the beat
    -3163,  // early tension
    -1152,  // early by a beat or more
    -2119,  // early, but already there
    -884,   // early by more than a beat
    -667,   // early, left by step
    938,    // early, and already there
    366,    // early, or a colour
    487,    // early, and the line goes on there
    1187,   // early, reached by leap
    1421,   // early, drawn out to the change
    333,    // early as a push
    -1084,  // early, or a sixth or ninth
    5248,   // hangs over
    -88,    // carried on
    700,    // carried on, struck again
    -789,   // carried on for long
    3133,   // carried on further
    743,    // carried on from an old tone
    -534,   // carried on, or a colour
    -934,   // tension
    2043,   // tension held
    401,    // tension ends the phrase
    879,    // tension left by leap
    764,    // tension reached by leap
    717,    // tension stacked
    2532,   // tension crowns an arpeggio
    520,    // tension reached by step
    1004,   // tension steps on
    873,    // tension on a strong place
    705,    // altered tension
    718,    // disputed tension
    1669,   // tension of an altered chord
    -1438,  // blue tension
    -1262,  // avoided tension
    -197,   // tension of two beats
    -267,   // brief tension
    -153,   // tension begins
    485,    // tension before a rest
    -1092,  // tension on the beat
    115,    // tension at a turn
    -85,    // tension in a scale
    -177,   // tension leads by half step
    1012,   // tension repeated
    92,     // tension comes back
    489,    // sixth or ninth
    843,    // sixth
    580,    // blue third
    653,    // tension in a riff
    606,    // tension off the grid of eighths
    -119,   // tension falls on
    133,    // tension beside tension
    -494,   // tension longer than its neighbours
    -35,    // tension between leaps
    -814,   // weak tension between steps
    -549,   // strong tension between steps
    -15,    // tension into a chord tone
    335,    // tension on the downbeat
    -2571,  // tension out of the scale
    345,    // eleventh
    919,    // tension longer than the note before
    635,    // tension kept from the chord before
    2192,   // passes
    -536,   // passes unaccented
    -333,   // passes accented
    -970,   // passes slowly
    1711,   // passes by half steps
    -306,   // passes for a beat
    -3200,  // passes for two beats
    133,    // passes on by half step
    22,     // passes quickly
    -5760,  // chord tone on its way
    -1417,  // passes into a rest
    1201,   // passes between chord tones
    1224,   // passes as a colour
    -387,   // passes on the beat
    -1187,  // passes and lingers
    1945,   // neighbours
    -749,   // neighbours unaccented
    -804,   // neighbours accented
    -692,   // neighbours slowly
    -865,   // neighbour of a beat
    1325,   // neighbours by half step
    -681,   // neighbours over a rest
    -1521,  // neighbours, the note changed
    128,    // neighbours as a colour
    118,    // neighbours on the beat
    100,    // neighbours from below
    1358,   // neighbours a chord tone
    2681,   // double neighbour
    1926,   // encloses
    -365,   // encloses with three
    1106,   // encloses by half step
    1420,   // enclosure lands strong
    -1959,  // encloses with a chord tone
    579,    // encloses across the change
    -939,   // encloses slowly
    -1055,  // encloses from the beat
    -1545,  // encloses widely
    1084,   // approaches
    1359,   // approaches by half step
    -115,   // approaches by whole step
    -177,   // approach lands strong
    -242,   // approach on a strong place
    60,     // approach longer than its target
    -1453,  // approach reached by step
    1589,   // approach from a blue note
    -271,   // approaches for a beat
    1358,   // approach begins
    -1434,  // approaches over a rest
    -1572,  // approaches from above
    1430,   // double approach
    -1600,  // double approach from a stack
    -82,    // leans
    753,    // leans on a strong place
    -143,   // leans long
    62,     // leans on a weak place
    50,     // leans on in the same direction
    -605,   // leans briefly
    414,    // leans for a beat
    -762,   // leans after a step
    1098,   // leans on the change
    1196,   // escapes
    144,    // escapes unaccented
    -1188,  // escapes accented
    -1377,  // escapes onward
    -301,   // escapes slowly
    2051,   // pedal, repeated
    -138,   // pedal in the bass
    -1791,  // unexplained
    3452,   // outside goes on
    -1073,  // outside, or a colour
    488,    // outside between steps
    -19,    // outside between leaps
    -328,   // outside for a beat
    1531,   // slips aside
    493,    // outside by a wide leap
    11,     // second passing tone
    -1300,  // lands on a tension
    -1486,  // leads to a note on its way
    -504,   // starts from a note on its way
    12,     // goes back to the old chord
};

}  // namespace insideline
