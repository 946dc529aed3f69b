// A solo written by rule, as large as wanted: running eighths over a cycle of common chords, laid out as notation
// programs export it (voices, stems, beams, positions), so that the bytes weigh what real ones weigh.
#pragma once

#include <string>

namespace insideline::benchmarks {

struct ScoreSize {
  int bars = 64;
  int notes = 500;  ///< at most eight a bar; the places left over are eighth rests, spread evenly
};

/// MusicXML 4.0, score-partwise, chords written in the score. The same size gives the same bytes.
std::string generated_score(const ScoreSize& size);

}  // namespace insideline::benchmarks
