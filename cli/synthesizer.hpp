// FluidSynth, as far as we need it: a MIDI file of ours in, the bytes of a WAV file out.
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>

namespace insideline::cli {

/// No sound came of it. `what()` says why and what to do.
class SoundError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// 44,100 frames a second, two channels of 16 bits, with a General MIDI sound font of Debian. Throws SoundError.
std::string synthesized(std::string_view midi);

}  // namespace insideline::cli
