// Written by fit_labels --strength 2 --temperature 0.8 from lines.tsv tuning.tsv*3 nct_examples.tsv*25
// lines_not_in_the_tree.tsv*4: 3871 labelled notes. Do not edit: set values by hand in score_table.cpp and fit again.
#include "analyzer/labels/fitted_values.hpp"

namespace insideline {

const std::array<int, static_cast<std::size_t>(Row::count)> fitted_values = {
    -744,   // early
    2300,   // early, tied over
    3634,   // early, struck again
    1978,   // early, before a rest
    145,    // early, left
    1284,   // early, off the beat
    -3755,  // early tension
    -1001,  // early by a beat or more
    -2439,  // early, but already there
    -1118,  // early by more than a beat
    -607,   // early, left by step
    1057,   // early, and already there
    356,    // early, or a colour
    598,    // early, and the line goes on there
    879,    // early, reached by leap
    5332,   // hangs over
    -218,   // carried on
    184,    // carried on, struck again
    -883,   // carried on for long
    3355,   // carried on further
    844,    // carried on from an old tone
    -598,   // carried on, or a colour
    -1310,  // tension
    2170,   // tension held
    378,    // tension ends the phrase
    1417,   // tension left by leap
    1012,   // tension reached by leap
    781,    // tension stacked
    2394,   // tension crowns an arpeggio
    570,    // tension reached by step
    1261,   // tension steps on
    643,    // tension on a strong place
    691,    // altered tension
    551,    // disputed tension
    1602,   // tension of an altered chord
    -1411,  // blue tension
    -1000,  // avoided tension
    -218,   // tension of two beats
    -262,   // brief tension
    -40,    // tension begins
    342,    // tension before a rest
    -1037,  // tension on the beat
    140,    // tension at a turn
    -189,   // tension in a scale
    -423,   // tension leads by half step
    1505,   // tension repeated
    178,    // tension comes back
    703,    // sixth or ninth
    727,    // sixth
    595,    // blue third
    670,    // tension in a riff
    724,    // tension off the grid of eighths
    351,    // tension falls on
    320,    // tension beside tension
    174,    // tension longer than its neighbours
    -174,   // tension between leaps
    -1070,  // weak tension between steps
    -698,   // strong tension between steps
    -228,   // tension into a chord tone
    274,    // tension on the downbeat
    -2508,  // tension out of the scale
    438,    // eleventh
    1841,   // passes
    -254,   // passes unaccented
    -96,    // passes accented
    -1779,  // passes slowly
    1652,   // passes by half steps
    -518,   // passes for a beat
    -3201,  // passes for two beats
    -247,   // passes on by half step
    141,    // passes quickly
    -5695,  // chord tone on its way
    -1420,  // passes into a rest
    1334,   // passes between chord tones
    905,    // passes as a colour
    -775,   // passes on the beat
    2333,   // neighbours
    -601,   // neighbours unaccented
    -830,   // neighbours accented
    -441,   // neighbours slowly
    -590,   // neighbour of a beat
    974,    // neighbours by half step
    -661,   // neighbours over a rest
    -1582,  // neighbours, the note changed
    307,    // neighbours as a colour
    -100,   // neighbours on the beat
    -256,   // neighbours from below
    2629,   // double neighbour
    1449,   // encloses
    31,     // encloses with three
    1214,   // encloses by half step
    691,    // enclosure lands strong
    -2191,  // encloses with a chord tone
    454,    // encloses across the change
    -1048,  // encloses slowly
    -923,   // encloses from the beat
    782,    // approaches
    1038,   // approaches by half step
    -96,    // approaches by whole step
    -123,   // approach lands strong
    -611,   // approach on a strong place
    -89,    // approach longer than its target
    -1997,  // approach reached by step
    1543,   // approach from a blue note
    -297,   // approaches for a beat
    1297,   // approach begins
    -1674,  // approaches over a rest
    884,    // double approach
    -1600,  // double approach from a stack
    112,    // leans
    1215,   // leans on a strong place
    -439,   // leans long
    57,     // leans on a weak place
    -245,   // leans on in the same direction
    -982,   // leans briefly
    702,    // leans for a beat
    -990,   // leans after a step
    1340,   // escapes
    341,    // escapes unaccented
    -1242,  // escapes accented
    -1561,  // escapes onward
    -135,   // escapes slowly
    2426,   // pedal, repeated
    134,    // pedal in the bass
    -1960,  // unexplained
    3244,   // outside goes on
    -988,   // outside, or a colour
    -229,   // outside between steps
    175,    // outside between leaps
    -248,   // outside for a beat
    1630,   // slips aside
    146,    // second passing tone
    -1179,  // lands on a tension
    -1611,  // leads to a note on its way
    -295,   // starts from a note on its way
    -288,   // goes back to the old chord
};

}  // namespace insideline
