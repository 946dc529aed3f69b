// The words that go with a practice sheet: what it is, how fast to go, when to move on, what to watch. Nothing
// here is medical advice; it sends to those who give it.
#pragma once

#include "analyzer/drills/aim_check.hpp"
#include "analyzer/drills/drill.hpp"
#include "analyzer/drills/drill_in_keys.hpp"
#include "analyzer/drills/drill_settings.hpp"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::reports {

/// A practice sheet with what its plan tells besides the music.
struct DrillReport {
  const Drill& drill;
  const DrillSettings& settings;
  std::vector<std::string> why;   ///< sentences about the solo that it was made from; empty without one
  double goal_bpm = 120.0;        ///< quarter notes per minute at the top of the ladder
  std::optional<AimCheck> aim{};  ///< what the analysis says of the finished sheet
  std::vector<KeyStart> keys{};   ///< where each key begins, on a sheet through all keys; else empty
  std::optional<KeyOrder> key_order{};
};

struct PlanSection {
  std::string heading;
  std::vector<std::string> paragraphs;
};

/// "Arpeggios down from the seventh, in eighths".
std::string drill_name(const DrillSettings& settings);

std::vector<PlanSection> drill_plan(const DrillReport& report);

constexpr std::string_view caution_heading = "A word of caution";

/// What stands below that heading, and at the foot of every page of music.
std::string caution_words();

/// Its end, for pages that are no practice sheets.
std::string caution_line();

/// How to record a take so that it can be heard.
std::string recording_line();

/// The tempos from slow to `goal_bpm`, whole numbers, rising.
std::vector<int> tempo_ladder(double goal_bpm);

/// The plan as text for a terminal, at most 80 columns.
std::string drill_plan_text(const DrillReport& report);

}  // namespace insideline::reports
