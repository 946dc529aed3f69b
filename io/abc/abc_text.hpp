// The text of an ABC file, cut into lines and tunes.
// Source: the ABC music standard 2.1 (abcnotation), from memory: section 2 (files), 3 (fields), 6.1 (line breaks).
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

struct AbcText {
  std::string file;  ///< for messages
  std::string text;  ///< without a byte order mark; a line ends in '\n'
};

/// A line without its comment, and where it stands in AbcText::text.
struct AbcLine {
  std::string_view text;
  std::size_t offset_bytes = 0;
};

/// The lines of one tune, those before the first tune of the file first: they hold for all.
struct AbcTune {
  std::vector<AbcLine> lines;
  std::string number;  ///< what X: says; empty where no line says it
  std::string title;   ///< the first T:
};

struct AbcFile {
  std::vector<AbcTune> tunes;
  std::vector<AbcLine> stray_bars;  ///< lines with bar lines that an empty line cuts off from their tune
};

/// Throws ReadError where `bytes` are no text.
AbcText abc_text(std::string_view bytes, std::string_view file_name);

/// A tune begins with X: and ends at an empty line. Without any X: the file is one tune. `source` must outlive the
/// lines.
AbcFile abc_tunes(const AbcText& source);

/// True for a line such as "K:Am" and not for one that begins with a note and a repeat, "a:|".
bool is_abc_field(std::string_view line);

/// What stands behind the colon of a field, without white space around it.
AbcLine abc_value(const AbcLine& field);

/// Throws the ReadError for the place `offset_bytes` into the text.
[[noreturn]] void refuse(const AbcText& source, std::size_t offset_bytes, std::string_view message);

}  // namespace insideline::io
