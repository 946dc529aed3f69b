// Could a listener name the chords from the line alone? The notes that fall under a chord
// are compared with every chord of the kinds in use on all twelve roots. The model is the
// plainest that has the question in it: a tone of the chord is `tone_weight` times as likely
// as any other pitch. The weight is chosen, no source; 4 lets seventh chords get two thirds
// of the notes on chord tones. Which chord a note was labelled against plays no part.
#pragma once

#include "analyzer/heard_line.hpp"

namespace insideline {

constexpr double tone_weight = 4.0;

/// Chords with the same tones (C6 and Am7) are one candidate. Stretches without notes are left out.
HeardHarmony measure_heard_harmony(const HeardLine& line, const Harmony& harmony);

}  // namespace insideline
