// The changes file: a chart typed as a musician would, with bar lines.
// The format is described in README.md, "The changes file".
#pragma once

#include "analyzer/model/changes.hpp"

#include <filesystem>
#include <string_view>

namespace insideline::io {

/// `text` is UTF-8; `file_name` is for messages only. Repeats, endings, `%` and the
/// header `form` are played out: the result is one whole pass of the form.
/// Throws ReadError with line, column and bar.
Changes parse_changes(std::string_view text, std::string_view file_name);

/// Opens the file, then parses it. Throws ReadError.
Changes read_changes(const std::filesystem::path& file);

}  // namespace insideline::io
