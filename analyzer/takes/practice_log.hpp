// What a practice log keeps of each take, and what the takes of one player say together.
#pragma once

#include "analyzer/takes/assessment.hpp"
#include "analyzer/takes/readiness.hpp"

#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace insideline {

struct LoggedTake {
  std::string player;               ///< as given; empty where nobody was named
  std::string day;                  ///< "2026-11-25"
  std::string sheet;                ///< its title and file, for people
  std::string sheet_id;             ///< what there is to play, whatever the file is called; empty in an old log
  std::string take;                 ///< file name
  std::optional<double> tempo_bpm;  ///< none where neither the playing nor the file says one
  Share right;
  Share up;  ///< of ascending arpeggios; of nothing where there are none
  Share down;
  int restarts = 0;
  std::optional<bool> whole;                     ///< the whole sheet, without a break; none where nobody looked
  std::optional<double> spread_percent;          ///< of a quarter note
  std::optional<int> added{};                    ///< notes that the sheet does not have; none where nobody counted
  std::optional<double> tempo_strays_percent{};  ///< how far two bars lie from the tempo of the take at most
  std::optional<int> tempo_jumps{};
  friend bool operator==(const LoggedTake&, const LoggedTake&) = default;
};

/// The take as the log keeps it, without its player, day and names. `take` is that of the assessment.
LoggedTake logged(const Assessment& assessment, const Solo& take);

/// Broken off, begun again, or only a part of the sheet. Such a take is kept, and never counts.
bool is_broken(const LoggedTake& take);

/// What keeps a take that was not broken off from being ready, apart from its wrong notes. A take of which that is not
/// known has none: old logs did not look.
enum class TakeFault : std::uint8_t { none, notes_added, unsteady, uneven };
TakeFault fault_of(const LoggedTake& take, const TakeBounds& bounds = {});

/// From the notes alone: a note that was added is a mistake.
Readiness note_readiness(const LoggedTake& take, int bound);

/// Within 3 percent: a player with a click keeps to that, and the next mark of a metronome is 4 to 5 percent away (60,
/// 63, 66, 69, 72 ... 96, 100, 104). Common practice, no source. A tempo that nobody knows is like no other.
constexpr double same_tempo_within = 0.03;
bool is_same_tempo(const LoggedTake& a, const LoggedTake& b);

enum class NextTempo : std::uint8_t {
  whole_first,  ///< the last take was broken
  slower,       ///< the last take had too many mistakes
  steadier,     ///< the last take was not in one tempo, or uneven: again, with a click
  same,
  faster  ///< ready at this tempo on this day and when it was last played at it before (common practice, no source)
};

/// From the takes of one player and one sheet, the oldest first; not empty. `bound` is the sheet's, see readiness.hpp.
NextTempo next_tempo(std::span<const LoggedTake> takes, int bound);

/// The fastest tempo at which two days in a row, of those on which it was played at that tempo, ended ready.
std::optional<double> ready_tempo(std::span<const LoggedTake> takes, int bound);

struct SheetProgress {
  std::vector<LoggedTake> takes;  ///< of one sheet, the oldest first; not empty
  NextTempo next = NextTempo::same;
  std::optional<double> ready_bpm;
};

struct PlayerProgress {
  std::string player;
  std::vector<SheetProgress> sheets;  ///< in the order they were begun; not empty
  int takes = 0;
  int days = 0;  ///< with a take
  std::string first_day;
  std::string last_day;
};

/// Player by player in alphabetical order. `takes` are the oldest first.
std::vector<PlayerProgress> progress_of(std::span<const LoggedTake> takes, int bound);

/// The last take of a player: on the last day that of the sheet played last.
const LoggedTake& last_take(const PlayerProgress& player);

}  // namespace insideline
