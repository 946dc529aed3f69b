// How a practice log speaks of takes, the same for the terminal, the page and the tables.
#pragma once

#include "analyzer/takes/practice_log.hpp"
#include "reports/practice_log/log_report.hpp"

#include <span>
#include <string>
#include <string_view>

namespace insideline::reports {

/// "ready", "not settled", "not ready", "unsteady" (the tempo), "uneven" or "broken off"
std::string_view verdict_word(const LoggedTake& take, int bound);

/// "72 bpm", "no tempo"
std::string tempo_text(const std::optional<double>& tempo_bpm);

/// "  2026-11-25   72 bpm  ██████████  150 of 163  not settled  up 40/44, down 110/119", with a line feed
std::string take_line(const LoggedTake& take, int bound);

/// What the takes of one sheet advise about the tempo. `takes` are not empty.
std::string advice_in_words(std::span<const LoggedTake> takes, NextTempo next);

/// The name on one line; what to call a player whom nobody named.
std::string shown_name(const std::string& player);

/// "7 takes on 5 days, from 2026-09-14 to 2026-11-25"
std::string takes_and_days(const PlayerProgress& player);

/// "1 of 2": sheets that were ready on two days, of those that were played.
Share sheets_ready(const PlayerProgress& player);

/// "4 players, 23 takes, from 2026-09-14 to 2026-11-25"
std::string whole_log(const PracticeLogReport& report);

}  // namespace insideline::reports
