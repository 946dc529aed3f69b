// What a teacher hears in a solo, as a small text file: a note by its bar and beat, and what it is, in the words of the
// README ("Words we use").
//   12 2.5 neighbour tone
//   20 1 tone of the chord before     # a word on it
//   7 3 grace 2 b9
#pragma once

#include "analyzer/model/solo.hpp"
#include "analyzer/pin.hpp"
#include "io/source_text.hpp"

#include <filesystem>
#include <string_view>
#include <vector>

namespace insideline::io {

/// The pins of a file with the place of each, side by side.
struct HearingReading {
  std::vector<Pin> pins;  ///< one a note, in the order of their first lines
  std::vector<Place> places;
};

/// Lines about one note are taken together. Throws ReadError with line and column: a word that is none, no such note,
/// two lines that contradict each other.
HearingReading parse_hearing(std::string_view text, std::string_view file_name, const Solo& solo);
HearingReading read_hearing(const std::filesystem::path& file, const Solo& solo);

}  // namespace insideline::io
