// Any bytes are heard as a recording or refused with a place. Notes that are heard follow one another inside it.
#include "io/audio/recording.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

namespace {

void ensure(bool holds) {
  if (!holds) std::abort();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  try {
    const auto recording = insideline::io::parse_recording(bytes, "fuzz.wav");
    ensure(!recording.line.notes.empty());
    double before = 0.0;
    for (const auto& note : recording.line.notes) {
      ensure(note.onset_seconds >= before && note.end_seconds >= note.onset_seconds);
      ensure(note.midi >= 0 && note.midi <= 127 && note.sure >= 0.0F && note.sure <= 1.0F);
      before = note.onset_seconds;
    }
  } catch (const insideline::io::ReadError& error) {
    ensure(std::string_view(error.what()).starts_with("fuzz.wav"));
  }
  return 0;
}
