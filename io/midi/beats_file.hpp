// Beats tapped along with a recording: one time in seconds a line, and, where wanted, the number of the beat in its
// bar. What a tempo map cannot say about music in free time.
#pragma once

#include <filesystem>
#include <optional>
#include <string_view>
#include <vector>

namespace insideline::io {

struct TappedBeat {
  double seconds = 0.0;
  std::optional<int> number;  ///< 1 is the downbeat
};

/// At least two, in order of time. Throws ReadError with line and column.
std::vector<TappedBeat> parse_beats_file(std::string_view text, std::string_view file_name);
std::vector<TappedBeat> read_beats_file(const std::filesystem::path& file);

}  // namespace insideline::io
