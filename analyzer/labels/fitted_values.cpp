// Written by fit_labels --strength 1 --temperature 0.8 from lines.tsv tuning.tsv*2 nct_examples.tsv*18
// lines_not_in_the_tree.tsv*4: 3869 labelled notes. Do not edit: set values by hand in score_table.cpp and fit again.
#include "analyzer/labels/fitted_values.hpp"

namespace insideline {
namespace {

constexpr std::array values_by_row = {
    -1942,  // early
    2138,   // early, tied over
    488,    // early, mostly heard over its chord
    3459,   // early, struck again
    1941,   // early, before a rest
    -680,   // early, left
    1845,   // early, off the beat
    -3347,  // early tension
    -1208,  // early by a beat or more
    -1901,  // early, but already there
    -1015,  // early by more than a beat
    -965,   // early, left by step
    970,    // early, and already there
    523,    // early, or a colour
    379,    // early, and the line goes on there
    1390,   // early, reached by leap
    1266,   // early, drawn out to the change
    286,    // early as a push
    -1186,  // early, or a sixth or ninth
    1094,   // early, the root to come
    5266,   // hangs over
    194,    // carried on
    548,    // carried on, struck again
    -902,   // carried on for long
    3250,   // carried on further
    618,    // carried on from an old tone
    -779,   // carried on, or a colour
    -1037,  // tension
    2083,   // tension held
    -210,   // tension ends the phrase
    641,    // tension left by leap
    722,    // tension reached by leap
    685,    // tension stacked
    2212,   // tension crowns an arpeggio
    756,    // tension reached by step
    1185,   // tension steps on
    922,    // tension on a strong place
    756,    // altered tension
    952,    // disputed tension
    1909,   // tension of an altered chord
    -1519,  // blue tension
    -1245,  // avoided tension
    -384,   // tension of two beats
    -304,   // brief tension
    -125,   // tension begins
    747,    // tension before a rest
    -1212,  // tension on the beat
    15,     // tension at a turn
    101,    // tension in a scale
    -168,   // tension leads by half step
    978,    // tension repeated
    27,     // tension comes back
    635,    // sixth or ninth
    707,    // sixth
    602,    // blue third
    646,    // tension in a riff
    699,    // tension off the grid of eighths
    -305,   // tension falls on
    173,    // tension beside tension
    -480,   // tension longer than its neighbours
    218,    // tension between leaps
    -878,   // weak tension between steps
    -631,   // strong tension between steps
    29,     // tension into a chord tone
    402,    // tension on the downbeat
    -2394,  // tension out of the scale
    575,    // eleventh
    1002,   // tension longer than the note before
    555,    // tension kept from the chord before
    2589,   // passes
    -572,   // passes unaccented
    -282,   // passes accented
    -687,   // passes slowly
    1914,   // passes by half steps
    -248,   // passes for a beat
    -3202,  // passes for two beats
    -16,    // passes on by half step
    11,     // passes quickly
    -6311,  // chord tone on its way
    -1479,  // passes into a rest
    1155,   // passes between chord tones
    1570,   // passes as a colour
    -524,   // passes on the beat
    -1398,  // passes and lingers
    1963,   // neighbours
    -897,   // neighbours unaccented
    -1085,  // neighbours accented
    -339,   // neighbours slowly
    -1118,  // neighbour of a beat
    1486,   // neighbours by half step
    -251,   // neighbours over a rest
    -1526,  // neighbours, the note changed
    150,    // neighbours as a colour
    270,    // neighbours on the beat
    273,    // neighbours from below
    1500,   // neighbours a chord tone
    2587,   // double neighbour
    2020,   // encloses
    -458,   // encloses with three
    1271,   // encloses by half step
    1681,   // enclosure lands strong
    -2041,  // encloses with a chord tone
    494,    // encloses across the change
    -1008,  // encloses slowly
    -1080,  // encloses from the beat
    -2037,  // encloses widely
    1132,   // approaches
    1392,   // approaches by half step
    -100,   // approaches by whole step
    -121,   // approach lands strong
    -256,   // approach on a strong place
    268,    // approach longer than its target
    -1297,  // approach reached by step
    1424,   // approach from a blue note
    -288,   // approaches for a beat
    1479,   // approach begins
    -1472,  // approaches over a rest
    -1816,  // approaches from above
    1540,   // double approach
    -1600,  // double approach from a stack
    -343,   // leans
    593,    // leans on a strong place
    -205,   // leans long
    106,    // leans on a weak place
    172,    // leans on in the same direction
    -352,   // leans briefly
    650,    // leans for a beat
    -377,   // leans after a step
    1192,   // leans on the change
    1040,   // escapes
    61,     // escapes unaccented
    -1260,  // escapes accented
    -1094,  // escapes onward
    -88,    // escapes slowly
    1681,   // pedal, repeated
    -177,   // pedal in the bass
    -1693,  // unexplained
    3558,   // outside goes on
    -1300,  // outside, or a colour
    757,    // outside between steps
    -179,   // outside between leaps
    -489,   // outside for a beat
    1614,   // slips aside
    373,    // outside by a wide leap
    -60,    // second passing tone
    -1334,  // lands on a tension
    -1530,  // leads to a note on its way
    -259,   // starts from a note on its way
    203,    // goes back to the old chord
};
static_assert(values_by_row.size() == static_cast<std::size_t>(Row::count),
              "each row has a value: write 0 at its place and fit again");

}  // namespace

const std::array<int, static_cast<std::size_t>(Row::count)> fitted_values = values_by_row;

}  // namespace insideline
