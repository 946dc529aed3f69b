// Written by fit_labels --strength 1 --temperature 0.8 from lines.tsv tuning.tsv*2 nct_examples.tsv*18
// lines_not_in_the_tree.tsv*4: 3988 labelled notes. Do not edit: set values by hand in score_table.cpp and fit again.
#include "analyzer/labels/fitted_values.hpp"

namespace insideline {
namespace {

constexpr std::array values_by_row = {
    -1916,  // early
    2054,   // early, tied over
    507,    // early, mostly heard over its chord
    3467,   // early, struck again
    2026,   // early, before a rest
    -663,   // early, left
    1821,   // early, off the beat
    -3320,  // early tension
    -1201,  // early by a beat or more
    -1926,  // early, but already there
    -1032,  // early by more than a beat
    -977,   // early, left by step
    1017,   // early, and already there
    501,    // early, or a colour
    328,    // early, and the line goes on there
    1356,   // early, reached by leap
    1257,   // early, drawn out to the change
    290,    // early as a push
    -1135,  // early, or a sixth or ninth
    1080,   // early, the root to come
    5464,   // hangs over
    306,    // carried on
    509,    // carried on, struck again
    -901,   // carried on for long
    3159,   // carried on further
    512,    // carried on from an old tone
    -809,   // carried on, or a colour
    -1127,  // tension
    2092,   // tension held
    -194,   // tension ends the phrase
    615,    // tension left by leap
    806,    // tension reached by leap
    649,    // tension stacked
    2098,   // tension crowns an arpeggio
    840,    // tension reached by step
    1140,   // tension steps on
    966,    // tension on a strong place
    755,    // altered tension
    941,    // disputed tension
    1914,   // tension of an altered chord
    -1480,  // blue tension
    -1131,  // avoided tension
    -533,   // tension of two beats
    -283,   // brief tension
    -294,   // tension begins
    789,    // tension before a rest
    -1212,  // tension on the beat
    -61,    // tension at a turn
    224,    // tension in a scale
    -20,    // tension leads by half step
    970,    // tension repeated
    12,     // tension comes back
    653,    // sixth or ninth
    719,    // sixth
    625,    // blue third
    648,    // tension in a riff
    726,    // tension off the grid of eighths
    -314,   // tension falls on
    146,    // tension beside tension
    -518,   // tension longer than its neighbours
    275,    // tension between leaps
    -892,   // weak tension between steps
    -615,   // strong tension between steps
    73,     // tension into a chord tone
    473,    // tension on the downbeat
    -2288,  // tension out of the scale
    611,    // eleventh
    970,    // tension longer than the note before
    541,    // tension kept from the chord before
    -1806,  // tension from 4 to 3
    2702,   // passes
    -589,   // passes unaccented
    -223,   // passes accented
    -738,   // passes slowly
    1980,   // passes by half steps
    -285,   // passes for a beat
    -3204,  // passes for two beats
    64,     // passes on by half step
    37,     // passes quickly
    -6458,  // chord tone on its way
    -1546,  // passes into a rest
    1163,   // passes between chord tones
    1568,   // passes as a colour
    -499,   // passes on the beat
    -1429,  // passes and lingers
    1893,   // neighbours
    -977,   // neighbours unaccented
    -1083,  // neighbours accented
    -327,   // neighbours slowly
    -789,   // neighbour of a beat
    1677,   // neighbours by half step
    -90,    // neighbours over a rest
    -1260,  // neighbours, the note changed
    119,    // neighbours as a colour
    341,    // neighbours on the beat
    399,    // neighbours from below
    1471,   // neighbours a chord tone
    -2500,  // neighbour of two beats
    2620,   // double neighbour
    1466,   // encloses
    -186,   // encloses with three
    774,    // encloses by half step
    1704,   // enclosure lands strong
    -1560,  // encloses with a chord tone
    -717,   // encloses across the change
    -926,   // encloses slowly
    72,     // encloses from the beat
    -2095,  // encloses widely
    2627,   // encloses from above
    1542,   // encloses from above, then by two half steps
    1195,   // approaches
    1505,   // approaches by half step
    -150,   // approaches by whole step
    -88,    // approach lands strong
    -243,   // approach on a strong place
    177,    // approach longer than its target
    -1248,  // approach reached by step
    1462,   // approach from a blue note
    -314,   // approaches for a beat
    1278,   // approach begins
    -1514,  // approaches over a rest
    -1910,  // approaches from above
    1743,   // double approach
    -1600,  // double approach from a stack
    -492,   // leans
    698,    // leans on a strong place
    -164,   // leans long
    277,    // leans on a weak place
    154,    // leans on in the same direction
    -365,   // leans briefly
    481,    // leans for a beat
    -329,   // leans after a step
    1211,   // leans on the change
    1275,   // leans from 4 to 3
    1014,   // escapes
    28,     // escapes unaccented
    -1254,  // escapes accented
    -1022,  // escapes onward
    -101,   // escapes slowly
    1692,   // pedal, repeated
    -213,   // pedal in the bass
    -1646,  // unexplained
    3551,   // outside goes on
    -1325,  // outside, or a colour
    803,    // outside between steps
    -200,   // outside between leaps
    -519,   // outside for a beat
    1645,   // slips aside
    373,    // outside by a wide leap
    -30,    // second passing tone
    -1308,  // lands on a tension
    -1545,  // leads to a note on its way
    -251,   // starts from a note on its way
    283,    // goes back to the old chord
};
static_assert(values_by_row.size() == static_cast<std::size_t>(Row::count),
              "each row has a value: write 0 at its place and fit again");

}  // namespace

const std::array<int, static_cast<std::size_t>(Row::count)> fitted_values = values_by_row;

}  // namespace insideline
