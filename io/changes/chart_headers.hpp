// The header lines of a changes file: `word: value`.
#pragma once

#include "analyzer/model/changes.hpp"
#include "io/changes/chart_text.hpp"
#include "io/read_result.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

/// A section the header `form` names, with its place for messages.
struct FormEntry {
  std::string section;
  std::size_t offset_bytes = 0;
};

struct ChartHeaders {
  std::optional<std::string> title;
  std::optional<Key> key;
  std::optional<Meter> meter;
  std::optional<Beats> pickup;          ///< in counted beats of the meter
  std::vector<FormEntry> form;          ///< empty: as written
  std::optional<double> tempo_bpm;      ///< quarter notes a minute
  std::optional<std::string> composer;  ///< for the reader of the chart alone
  std::vector<Warning> warnings;        ///< lines left out
};

/// True for a line such as "key: Eb", or "tempo 120" with the colon forgotten. "C:maj7 | F |" is a line of chords.
bool is_header(const ChartLine& line);

/// "A" of a line that begins a section, "A: | C | F |" or "Bridge:". Such a line is no header.
std::optional<std::string_view> section_name(const ChartLine& line);

/// What the header is about: "meter".
std::string header_word(const ChartLine& line);

/// Where in the line of a header its value begins.
std::size_t header_value(const ChartLine& line);

/// Adds what the line says; a word that charts are known to have, but that says nothing about the music, is left out
/// with a warning. Throws ReadError: an unknown word, a value that cannot be read, a word said twice.
void read_header(ChartHeaders& headers, const ChartText& chart, const ChartLine& line);

/// "Eb", "C minor", "F#m", "b♭ major", "D dorian"; none for anything else and beyond seven signs.
std::optional<Key> parse_key(std::string_view text);

/// "4/4", "6/8", "C" (common time), "C|" (cut time); none for anything else.
std::optional<Meter> parse_meter(std::string_view text);

}  // namespace insideline::io
