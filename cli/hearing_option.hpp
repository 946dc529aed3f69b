// --hearing: what a listener says of single notes, from a text file beside the solo or one that is named.
#pragma once

#include "analyzer/model/changes.hpp"
#include "cli/solo_options.hpp"
#include "reports/report.hpp"

#include <optional>
#include <string>

namespace insideline::cli {

/// For commands that read one solo: --hearing FILE.
void add_hearing_file_option(CLI::App& command, SoloOptions& options);
/// For all that read solos: --no-hearing.
void add_no_hearing_option(CLI::App& command, SoloOptions& options);

/// The file that will be read: the one named, else the one beside the solo.
std::optional<std::string> hearing_file_of(const SoloOptions& options);

/// Puts what the file says into the settings of `report`, whose solo is known. Throws io::ReadError, with the line,
/// where it cannot be.
void take_hearing(const SoloOptions& options, const Harmony& harmony, reports::Report& report);

}  // namespace insideline::cli
