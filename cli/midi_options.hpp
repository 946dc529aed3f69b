// The options of every command that reads a solo which only a MIDI file needs.
#pragma once

#include <string_view>

namespace CLI {
class App;
}

namespace insideline::cli {

struct SoloOptions;

/// `options` must live as long as `command`.
void add_midi_options(CLI::App& command, SoloOptions& options);

/// Refuses an option that would have no effect, as the file with these `bytes` is no MIDI file. Throws
/// CLI::ValidationError.
void check_midi_options(const SoloOptions& options, std::string_view bytes);

}  // namespace insideline::cli
