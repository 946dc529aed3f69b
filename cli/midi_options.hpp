// The options of every command that reads a solo which only a MIDI file needs.
#pragma once

namespace CLI {
class App;
}

namespace insideline::cli {

struct SoloOptions;

/// `options` must live as long as `command`.
void add_midi_options(CLI::App& command, SoloOptions& options);

}  // namespace insideline::cli
