// Written by fit_labels --strength 2 --temperature 0.8 from lines.tsv tuning.tsv*3 nct_examples.tsv*25
// lines_not_in_the_tree.tsv*4: 3869 labelled notes. Do not edit: set values by hand in score_table.cpp and fit again.
#include "analyzer/labels/fitted_values.hpp"

namespace insideline {

const std::array<int, static_cast<std::size_t>(Row::count)> fitted_values = {
    -776,   // early
    1851,   // early, tied over
    623,    // early, mostly heard over its chord
    3749,   // early, struck again
    2214,   // early, before a rest
    210,    // early, left
    1225,   // early, off the beat
    -3568,  // early tension
    -1004,  // early by a beat or more
    -2440,  // early, but already there
    -1120,  // early by more than a beat
    -608,   // early, left by step
    1047,   // early, and already there
    318,    // early, or a colour
    581,    // early, and the line goes on there
    930,    // early, reached by leap
    5318,   // hangs over
    -232,   // carried on
    185,    // carried on, struck again
    -882,   // carried on for long
    3359,   // carried on further
    865,    // carried on from an old tone
    -589,   // carried on, or a colour
    -1037,  // tension
    2080,   // tension held
    337,    // tension ends the phrase
    993,    // tension left by leap
    972,    // tension reached by leap
    732,    // tension stacked
    2423,   // tension crowns an arpeggio
    636,    // tension reached by step
    970,    // tension steps on
    719,    // tension on a strong place
    727,    // altered tension
    598,    // disputed tension
    1619,   // tension of an altered chord
    -1401,  // blue tension
    -1009,  // avoided tension
    -313,   // tension of two beats
    -270,   // brief tension
    -14,    // tension begins
    549,    // tension before a rest
    -1105,  // tension on the beat
    155,    // tension at a turn
    -237,   // tension in a scale
    -432,   // tension leads by half step
    1518,   // tension repeated
    164,    // tension comes back
    724,    // sixth or ninth
    762,    // sixth
    595,    // blue third
    682,    // tension in a riff
    709,    // tension off the grid of eighths
    344,    // tension falls on
    344,    // tension beside tension
    246,    // tension longer than its neighbours
    -2,     // tension between leaps
    -1131,  // weak tension between steps
    -752,   // strong tension between steps
    -209,   // tension into a chord tone
    275,    // tension on the downbeat
    -2548,  // tension out of the scale
    473,    // eleventh
    1855,   // passes
    -290,   // passes unaccented
    -83,    // passes accented
    -1758,  // passes slowly
    1652,   // passes by half steps
    -550,   // passes for a beat
    -3201,  // passes for two beats
    -242,   // passes on by half step
    132,    // passes quickly
    -5681,  // chord tone on its way
    -1399,  // passes into a rest
    1339,   // passes between chord tones
    907,    // passes as a colour
    -804,   // passes on the beat
    2373,   // neighbours
    -623,   // neighbours unaccented
    -841,   // neighbours accented
    -374,   // neighbours slowly
    -618,   // neighbour of a beat
    974,    // neighbours by half step
    -619,   // neighbours over a rest
    -1586,  // neighbours, the note changed
    282,    // neighbours as a colour
    -146,   // neighbours on the beat
    -215,   // neighbours from below
    2632,   // double neighbour
    1440,   // encloses
    26,     // encloses with three
    1213,   // encloses by half step
    702,    // enclosure lands strong
    -2187,  // encloses with a chord tone
    467,    // encloses across the change
    -1058,  // encloses slowly
    -913,   // encloses from the beat
    782,    // approaches
    1034,   // approaches by half step
    -92,    // approaches by whole step
    -144,   // approach lands strong
    -587,   // approach on a strong place
    -88,    // approach longer than its target
    -1979,  // approach reached by step
    1605,   // approach from a blue note
    -342,   // approaches for a beat
    1302,   // approach begins
    -1660,  // approaches over a rest
    876,    // double approach
    -1600,  // double approach from a stack
    103,    // leans
    1233,   // leans on a strong place
    -434,   // leans long
    44,     // leans on a weak place
    -265,   // leans on in the same direction
    -970,   // leans briefly
    669,    // leans for a beat
    -979,   // leans after a step
    1320,   // escapes
    321,    // escapes unaccented
    -1242,  // escapes accented
    -1572,  // escapes onward
    -171,   // escapes slowly
    2434,   // pedal, repeated
    108,    // pedal in the bass
    -1966,  // unexplained
    3218,   // outside goes on
    -976,   // outside, or a colour
    -231,   // outside between steps
    188,    // outside between leaps
    -264,   // outside for a beat
    1643,   // slips aside
    139,    // second passing tone
    -1206,  // lands on a tension
    -1624,  // leads to a note on its way
    -297,   // starts from a note on its way
    -273,   // goes back to the old chord
};

}  // namespace insideline
