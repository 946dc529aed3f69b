// A sound file, read a block at a time: WAV, FLAC and Ogg (Vorbis, Opus), any rate and any number of channels.
// The only place that knows libsndfile, which is loaded when the first recording comes.
#pragma once

#include <cstddef>
#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <string_view>

namespace insideline::io {

/// True where the bytes begin as a recording does, also as one of a kind that is refused (MP3, AAC, AIFF).
bool begins_as_recording(std::string_view bytes);

/// True where the name ends as that of a recording.
bool is_named_as_recording(const std::filesystem::path& file);

/// True for a file whose first bytes, or else whose name, are those of a recording.
bool is_recording(const std::filesystem::path& file);

/// Longer ones are no takes.
constexpr long long longest_recording_seconds = 3'600;

/// Stays open as long as it lives. Throws ReadError: not to be opened, no such format, an impossible head, broken
/// off as far as head and end show it, too long, or a build that reads no recordings.
class SoundFile {
 public:
  explicit SoundFile(const std::filesystem::path& file);
  /// From memory; `bytes` must outlive it. `file_name` is for messages.
  SoundFile(std::string_view bytes, std::string_view file_name);
  ~SoundFile();
  SoundFile(const SoundFile&) = delete;
  SoundFile& operator=(const SoundFile&) = delete;

  [[nodiscard]] const std::string& name() const { return name_; }
  [[nodiscard]] int rate() const { return rate_; }  ///< samples a second of each channel
  [[nodiscard]] int channels() const { return channels_; }
  /// As the head of the file says; what is there can be less. 0 where it does not say.
  [[nodiscard]] long long frames() const { return frames_; }

  /// Fills whole frames, channel beside channel, 1 is full scale; returns how many frames, 0 at the end.
  std::size_t read(std::span<float> samples);

 private:
  struct Opened;
  void take_head();

  std::string name_;
  std::unique_ptr<Opened> opened_;
  int rate_ = 0;
  int channels_ = 0;
  long long frames_ = 0;
};

}  // namespace insideline::io
