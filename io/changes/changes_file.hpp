// The changes file: a chart typed as a musician would, with bar lines.
// The format is described in README.md, "The changes file".
#pragma once

#include "analyzer/model/changes.hpp"

#include "io/read_result.hpp"

#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

/// A chart with what it says beside its chords.
struct ChartReading {
  Changes changes;
  std::optional<double> tempo_bpm;  ///< quarter notes a minute
  std::vector<Warning> warnings;
};

/// `text` is UTF-8; `file_name` is for messages only. Repeats, endings, `%` and the
/// header `form` are played out: the result is one whole pass of the form.
/// Throws ReadError with line, column and bar.
ChartReading parse_chart(std::string_view text, std::string_view file_name);
/// The changes alone.
Changes parse_changes(std::string_view text, std::string_view file_name);

/// Opens the file, then parses it. Throws ReadError.
ChartReading read_chart(const std::filesystem::path& file);
Changes read_changes(const std::filesystem::path& file);

}  // namespace insideline::io
