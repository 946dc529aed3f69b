// Options of `drill` for lines with an aim: guide tones, enclosed thirds, straight down into the next chord.
#pragma once

namespace CLI {
class App;
}

namespace insideline {
struct DrillSettings;
}

namespace insideline::cli {

/// `settings` must live as long as `command`, which has the other figures already.
void add_aim_options(CLI::App& command, DrillSettings& settings);

/// Refuses what has no effect on guide tones. Throws CLI::ValidationError with the reason.
void check_aims(const CLI::App& command);

}  // namespace insideline::cli
