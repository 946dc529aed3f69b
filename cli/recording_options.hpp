// A solo or a take from a recording: the options that say how to listen, and what was heard.
#pragma once

#include "analyzer/analysis.hpp"
#include "analyzer/drills/instruments.hpp"
#include "analyzer/takes/take_alignment.hpp"
#include "cli/destinations.hpp"
#include "cli/output.hpp"
#include "cli/solo_options.hpp"
#include "io/audio/recording.hpp"
#include "reports/from_sound.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace insideline::cli {

struct ListeningOptions {
  std::optional<PitchRange> range;        ///< sounding; none: that of the sheet, else of any instrument
  std::optional<double> tempo_bpm;        ///< quarter notes a minute
  std::optional<std::string> heard_midi;  ///< where to write what was heard
};

void add_recording_options(CLI::App& command, ListeningOptions& options);

/// Throws CLI::ValidationError for an option that has no effect, and tells `destinations` what is written.
void check(const ListeningOptions& options, const std::string& solo, Destinations& destinations);

/// Whether a line without beats is of use.
enum class Beat : std::uint8_t { needed, not_needed };

/// The bytes of a solo that is read, or of the MIDI file of what was heard.
struct SoloBytes {
  std::string bytes;
  std::optional<io::Recording> heard;
};

/// `sheet` is what was to be played, where there is a sheet: it bounds what is listened for, an octave wider.
SoloBytes read_or_heard(const SoloOptions& solo, const ListeningOptions& options, Beat beat,
                        const Solo* sheet = nullptr);

/// The solo over its changes. Where nothing but the notes tells the beat of a recording, it may lie half a beat off:
/// the chart decides, and `bytes` become those of the place that is taken. What was heard stands in the report.
ReadSolo read_over_changes(const SoloOptions& options, SoloBytes& bytes);

/// Nothing for a solo that was read. `solo` is what the bytes were read as; unsure notes are named by its bars where
/// beats are known.
std::optional<reports::FromSound> from_sound(const SoloBytes& bytes, const Solo& solo);

/// The same of a take that was laid against a sheet: unsure notes are named by the bars of the sheet, and those that
/// are none of its notes by their time in the recording.
std::optional<reports::FromSound> from_sound(const SoloBytes& bytes, const Solo& take, const Solo& sheet,
                                             const TakeAlignment& alignment);

/// Leaves out what an attack blurs.
void leave_out_lateness(std::optional<TimeFeel>& feel);

/// The MIDI file of what was heard, where it is asked for.
std::vector<PendingFile> heard_midi_file(const SoloBytes& bytes, const ListeningOptions& options);

}  // namespace insideline::cli
