// A player who makes the mistakes that are asked for: takes of a sheet for tests, the same each time.
#pragma once

#include "analyzer/model/solo.hpp"

#include <string_view>

namespace insideline::tests {

/// The sheet (in 4/4, bars numbered from 1) as played, with `faults`, parted by ";":
///   only 1-8        the other bars are not played           skip 9-12    left out, and on without a pause
///   rest 9-12       silence for as long                      again 9 7    after bar 9 a bar's pause, and on from bar 7
///   twice           once more from the beginning             stop 9 3     before bar 9 a pause of 3 quarters
///   early 9 1       into bar 9 so many quarters early; what had no time is not played
///   wrong 5, missing 5, added 5, octave 5     so many notes, anywhere      up 12     all of it, in semitones
///   wrong-in 5 3    so many notes of bar 5 wrong
///   tempo 96 128    from beginning to end, 120 otherwise     jump 17 10   from bar 17 on so many percent faster
///   wave 8          so many percent faster and slower in turn, every eight bars
///   uneven 40       spread of the onsets in ms; 5 otherwise  swing 1.6    late 30   in ms
///   backwards       the notes in another order
Solo faulty_take(const Solo& sheet, std::string_view faults, unsigned seed = 1);

}  // namespace insideline::tests
