// Any bytes are read as tapped beats or refused with a place. Beats that are read follow each other.
#include "io/midi/beats_file.hpp"
#include "io/read_result.hpp"

#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string text;
  for (std::size_t i = 0; i < size; ++i) text.push_back(static_cast<char>(data[i]));
  try {
    const auto beats = insideline::io::parse_beats_file(text, "fuzz.beats");
    require(beats.size() >= 2);
    for (std::size_t i = 0; i < beats.size(); ++i) {
      require(std::isfinite(beats[i].seconds));
      require(i == 0 || beats[i].seconds > beats[i - 1].seconds);
      require(!beats[i].number || *beats[i].number >= 1);
    }
  } catch (const insideline::io::ReadError& error) {
    require(std::string_view(error.what()).starts_with("fuzz.beats"));
    require(error.place().line >= 0 && error.place().column >= 0);
  }
  return 0;
}
