// The bytes of a recording as libsndfile writes them.
#pragma once

#include <cstdint>
#include <span>
#include <string>

namespace insideline::tests {

enum class SoundCoding : std::uint8_t { flac, vorbis, opus, wav_8_bit, wav_24_bit, wav_floats };

/// `samples` channel beside channel.
std::string coded(std::span<const float> samples, int rate, int channels, SoundCoding coding);

}  // namespace insideline::tests
