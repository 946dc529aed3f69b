// What a practice log keeps of each take, and what the takes of one sheet say together.
#pragma once

#include "analyzer/takes/assessment.hpp"

#include <optional>
#include <span>
#include <string>

namespace insideline {

struct LoggedTake {
  std::string day;                  ///< "2026-11-25"
  std::string sheet;                ///< its title and file, for one tune has many sheets
  std::string take;                 ///< file name
  std::optional<double> tempo_bpm;  ///< none for a take without times
  Share right;
  Share up;  ///< of ascending arpeggios; of nothing where there are none
  Share down;
  int restarts = 0;
  std::optional<double> spread_percent;  ///< of a quarter note
  friend bool operator==(const LoggedTake&, const LoggedTake&) = default;
};

LoggedTake logged(const Assessment& assessment, const std::string& day, const std::string& sheet,
                  const std::string& take);

enum class NextTempo : std::uint8_t {
  slower,  ///< the last take was not ready
  same,
  faster  ///< the last takes of two days were ready (common practice, no source)
};

/// From the takes of one sheet, the oldest first; not empty. `bound` is the sheet's, see readiness.hpp.
NextTempo next_tempo(std::span<const LoggedTake> takes, int bound);

}  // namespace insideline
