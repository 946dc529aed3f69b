#include "tests/io/audio/coded_sound.hpp"

#include <sndfile.h>

#include <algorithm>
#include <cstring>
#include <stdexcept>

namespace insideline::tests {
namespace {

struct Written {
  std::string bytes;
  std::size_t at = 0;
};

Written& written(void* user) { return *static_cast<Written*>(user); }

sf_count_t size_of_written(void* user) { return static_cast<sf_count_t>(written(user).bytes.size()); }

sf_count_t seek_in_written(sf_count_t offset, int whence, void* user) {
  Written& file = written(user);
  const auto from = static_cast<sf_count_t>(whence == SEEK_CUR ? file.at : whence == SEEK_END ? file.bytes.size() : 0);
  file.at = static_cast<std::size_t>(std::max<sf_count_t>(0, from + offset));
  return static_cast<sf_count_t>(file.at);
}

sf_count_t read_written(void* to, sf_count_t count, void* user) {
  Written& file = written(user);
  const std::size_t left = file.bytes.size() - std::min(file.at, file.bytes.size());
  const std::size_t taken = std::min(left, static_cast<std::size_t>(count));
  std::memcpy(to, file.bytes.data() + file.at, taken);
  file.at += taken;
  return static_cast<sf_count_t>(taken);
}

sf_count_t write_more(const void* from, sf_count_t count, void* user) {
  Written& file = written(user);
  const auto size = static_cast<std::size_t>(count);
  if (file.bytes.size() < file.at + size) file.bytes.resize(file.at + size);
  std::memcpy(file.bytes.data() + file.at, from, size);
  file.at += size;
  return count;
}

sf_count_t place_in_written(void* user) { return static_cast<sf_count_t>(written(user).at); }

int format_of(SoundCoding coding) {
  switch (coding) {
    case SoundCoding::flac: return SF_FORMAT_FLAC | SF_FORMAT_PCM_16;
    case SoundCoding::vorbis: return SF_FORMAT_OGG | SF_FORMAT_VORBIS;
    case SoundCoding::opus: return SF_FORMAT_OGG | SF_FORMAT_OPUS;
    case SoundCoding::wav_8_bit: return SF_FORMAT_WAV | SF_FORMAT_PCM_U8;
    case SoundCoding::wav_24_bit: return SF_FORMAT_WAV | SF_FORMAT_PCM_24;
    case SoundCoding::wav_floats: return SF_FORMAT_WAV | SF_FORMAT_FLOAT;
  }
  return 0;
}

}  // namespace

std::string coded(std::span<const float> samples, int rate, int channels, SoundCoding coding) {
  SF_INFO info{};
  info.samplerate = rate;
  info.channels = channels;
  info.format = format_of(coding);
  SF_VIRTUAL_IO doors{size_of_written, seek_in_written, read_written, write_more, place_in_written};
  Written file;
  SNDFILE* const handle = sf_open_virtual(&doors, SFM_WRITE, &info, &file);
  if (handle == nullptr) throw std::runtime_error(sf_strerror(nullptr));
  // A block at a time: the writer of Vorbis keeps what it is given on the stack.
  const auto frame = static_cast<std::size_t>(channels);
  constexpr std::size_t block_frames = 4'096;
  for (std::size_t at = 0; at < samples.size(); at += block_frames * frame) {
    const auto block = samples.subspan(at, std::min(block_frames * frame, samples.size() - at));
    sf_writef_float(handle, block.data(), static_cast<sf_count_t>(block.size() / frame));
  }
  sf_close(handle);
  return file.bytes;
}

}  // namespace insideline::tests
