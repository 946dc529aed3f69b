// Options of `drill` that say what is practised: lines, arpeggios, cells, and lines with an aim. What goes with what
// stands in drill_rules.
#pragma once

namespace CLI {
class App;
}

namespace insideline {
struct DrillSettings;
}

namespace insideline::cli {

/// `settings` must live as long as `command`.
void add_figure_options(CLI::App& command, DrillSettings& settings);

}  // namespace insideline::cli
