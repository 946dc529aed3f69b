// The options of every command that reads a solo, and what they lead to: the solo,
// the changes laid out under it, and the analysis of both.
#pragma once

#include "analyzer/section.hpp"
#include "analyzer/settings.hpp"
#include "cli/reading_option.hpp"
#include "io/read_solo.hpp"
#include "reports/report.hpp"

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace CLI {
class App;
}

namespace insideline::cli {

/// Whether a file solo.hearing beside solo.musicxml is read where none is named.
enum class HearingBeside : std::uint8_t { taken, left_alone };

enum class ChangesPitch : std::uint8_t { concert, written };

constexpr int furthest_bar = 100'000;  ///< of a chart

struct SoloOptions {
  std::string solo;
  std::optional<std::string> changes;        ///< none: those in the score, else tune.changes beside tune.musicxml
  std::string changes_option = "--changes";  ///< what names them, for messages
  ChangesPitch changes_pitch = ChangesPitch::concert;
  std::optional<std::string> hearing;  ///< none: solo.hearing beside solo.musicxml, if it is there
  HearingBeside hearing_beside = HearingBeside::taken;
  int start_bar = 1;
  io::ReadOptions reading;
  std::optional<std::string> beats_file;  ///< read into `reading.beats`
  Settings settings;
  std::optional<Section> section;  ///< only this part of the solo
  ReadingChoice pitch;             ///< of all names
};

/// `options` must live as long as `command`.
void add_solo_options(CLI::App& command, SoloOptions& options);
/// The same without the solo itself, for commands that read several.
void add_reading_options(CLI::App& command, SoloOptions& options);

/// The name of the file that `path` leads to, as messages show it.
std::string file_name(const std::string& path);

/// Whether other readings of the same solo are to be held against this one.
enum class Fit : std::uint8_t { not_needed, needed };

/// A solo over its changes, ready to be analyzed.
struct ReadSolo {
  reports::Report frame;  ///< all of a report but its analysis; the whole solo, at sounding pitch
  Harmony harmony;
  std::optional<double> fit;  ///< fit_over_chart, where it was asked for
};

/// Throws io::ReadError where the solo or the changes cannot be used. `solo_bytes` are what the file of the solo holds.
ReadSolo read_with_changes(const SoloOptions& options, std::string_view solo_bytes, Fit fit = Fit::not_needed);

/// In the pitch of `pitch`. Throws io::ReadError where the solo has no such section.
reports::Report analyzed(const ReadSolo& read, const SoloOptions& options, const ReadingChoice& pitch);

/// Both of them, with the pitch of the options.
reports::Report analyzed(const SoloOptions& options);
reports::Report analyzed(const SoloOptions& options, std::string_view solo_bytes);

}  // namespace insideline::cli
