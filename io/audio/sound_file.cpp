#include "io/audio/sound_file.hpp"

#include "analyzer/small_letters.hpp"
#include "io/file_bytes.hpp"
#include "io/read_result.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <optional>

#ifdef INSIDELINE_SNDFILE
#include <dlfcn.h>
#include <sndfile.h>

#include <cstring>
#endif

namespace insideline::io {
namespace {

enum class SoundKind : std::uint8_t { none, read, refused };

bool is_ogg(std::string_view bytes) { return bytes.starts_with("OggS"); }

bool stands_at(std::string_view bytes, std::size_t place, std::string_view text) {
  return bytes.size() >= place && bytes.substr(place).starts_with(text);
}

/// By the first bytes, as the formats' own descriptions give them.
SoundKind kind_of(std::string_view bytes) {
  if ((bytes.starts_with("RIFF") || bytes.starts_with("RF64")) && stands_at(bytes, 8, "WAVE")) return SoundKind::read;
  if (bytes.starts_with("fLaC") || is_ogg(bytes)) return SoundKind::read;
  const bool is_mp3 = bytes.starts_with("ID3") || bytes.starts_with("\xFF\xFB") || bytes.starts_with("\xFF\xF3");
  const bool is_aac = stands_at(bytes, 4, "ftyp") || bytes.starts_with("\xFF\xF1") || bytes.starts_with("\xFF\xF9");
  const bool is_aiff = bytes.starts_with("FORM") && stands_at(bytes, 8, "AIF");
  const bool is_other =
      bytes.starts_with("#!AMR") || bytes.starts_with("caff") || bytes.starts_with("\x1A\x45\xDF\xA3");
  return is_mp3 || is_aac || is_aiff || is_other ? SoundKind::refused : SoundKind::none;
}

std::string bytes_from(const std::filesystem::path& file, std::uintmax_t place, std::size_t count) {
  std::string bytes(count, '\0');
  std::ifstream stream(file, std::ios::binary);
  stream.seekg(static_cast<std::streamoff>(place));
  stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  bytes.resize(static_cast<std::size_t>(std::max<std::streamsize>(stream.gcount(), 0)));
  return bytes;
}

/// None of a folder, or of a pipe, which would wait for somebody to write.
std::string first_bytes(const std::filesystem::path& file) {
  std::error_code missing;
  if (!std::filesystem::is_regular_file(file, missing)) return {};
  return bytes_from(file, 0, 64);
}

}  // namespace

bool begins_as_recording(std::string_view bytes) { return kind_of(bytes) != SoundKind::none; }

bool is_named_as_recording(const std::filesystem::path& file) {
  const std::string ending = in_small_letters(file.extension().string());
  constexpr std::array endings{".wav", ".wave", ".flac", ".ogg",  ".oga", ".opus", ".mp3",
                               ".m4a", ".aac",  ".aif",  ".aiff", ".amr", ".3gp"};
  return std::ranges::find(endings, ending) != endings.end();
}

bool is_recording(const std::filesystem::path& file) {
  return begins_as_recording(first_bytes(file)) || is_named_as_recording(file);
}

#ifdef INSIDELINE_SNDFILE

// Not local: a type that the header names holds it.
/// What libsndfile reads from instead of a file.
struct InMemory {
  std::string_view bytes;
  sf_count_t at = 0;
};

namespace {

constexpr std::string_view what_is_read = "recordings are read as WAV, FLAC or Ogg; save it as one of these";

void refuse_other_kinds(std::string_view bytes, const std::string& name) {
  if (bytes.empty()) throw ReadError(place_of(name), "the file is empty");
  const SoundKind kind = kind_of(bytes);
  if (kind == SoundKind::none)
    throw ReadError(place_of(name), fmt::format("this is no recording, whatever its name says; {}", what_is_read));
  if (kind == SoundKind::refused)
    throw ReadError(place_of(name), fmt::format("a recording of a kind that is not read; {}", what_is_read));
}

std::uint32_t number_at(std::string_view bytes, std::size_t place, std::size_t width) {
  std::uint32_t number = 0;
  for (std::size_t i = 0; i < width; ++i)
    number |= static_cast<std::uint32_t>(static_cast<unsigned char>(bytes[place + i])) << (8 * i);
  return number;
}

/// What libsndfile lets pass: a WAV file whose head promises more than there is, or that has less than 8 bits a sample.
void check_wav_head(std::string_view bytes, std::uintmax_t size, const std::string& name) {
  constexpr std::size_t head_bytes = 36;
  constexpr std::uint32_t unknown = 0xFFFF'0000U;  // recorders that stream write a size as large as this, or none
  if (!bytes.starts_with("RIFF") || bytes.size() < head_bytes) return;
  const std::uint32_t promised = number_at(bytes, 4, 4);
  if (promised < unknown && size + 1 < std::uintmax_t{promised} + 8)
    throw ReadError(place_of(name),
                    fmt::format("the file breaks off: {} of {} bytes are there; copy it again", size, promised + 8));
  if (!stands_at(bytes, 12, "fmt ") || number_at(bytes, 20, 2) != 1) return;
  constexpr std::uint32_t fewest_bits = 8;
  if (const std::uint32_t bits = number_at(bytes, 34, 2); bits < fewest_bits)
    throw ReadError(place_of(name),
                    fmt::format("{}-bit samples are too coarse to hear a pitch; record it with 16 bits", bits));
}

// A page of an Ogg file: RFC 3533, section 6.
constexpr std::size_t page_head_bytes = 27;
constexpr std::size_t largest_page_bytes = page_head_bytes + 255 + 255 * 255;

/// Where the last page begins; none where there is no page.
std::optional<std::size_t> last_page_in(std::string_view bytes) {
  constexpr unsigned all_flags = 7;
  for (std::size_t at = bytes.rfind("OggS"); at != std::string_view::npos; at = bytes.rfind("OggS", at - 1)) {
    const bool is_cut = bytes.size() - at < 6;
    if (is_cut || (bytes[at + 4] == '\0' && number_at(bytes, at + 5, 1) <= all_flags)) return at;
    if (at == 0) break;
  }
  return std::nullopt;
}

/// `bytes` end where the file does. libsndfile takes the last whole page for the end of the sound; only a mark in that
/// page tells whether it is.
void check_ogg_end(std::string_view bytes, const std::string& name) {
  constexpr std::uint32_t end_of_stream = 4;
  const auto is_whole_end = [&](std::size_t at) {
    if (at + page_head_bytes > bytes.size()) return false;
    const std::size_t pieces = number_at(bytes, at + page_head_bytes - 1, 1);
    std::size_t end = at + page_head_bytes + pieces;
    if (end > bytes.size()) return false;
    for (std::size_t i = 0; i < pieces; ++i) end += number_at(bytes, at + page_head_bytes + i, 1);
    return end <= bytes.size() && (number_at(bytes, at + 5, 1) & end_of_stream) != 0;
  };
  const auto last = last_page_in(bytes);
  if (last && is_whole_end(*last)) return;
  throw ReadError(place_of(name),
                  "the file breaks off: the mark that ends an Ogg file is not there; copy it again, or if it was "
                  "recorded so, save what there is as WAV");
}

/// The library itself, loaded once and never let go; null where it is not to be had.
void* libsndfile() {
  static void* const library = ::dlopen(INSIDELINE_SNDFILE, RTLD_NOW | RTLD_LOCAL);
  return library;
}

/// The function of that name. libsndfile's own interface is stable under the name of its file.
template <typename Function>
Function* in_libsndfile(const char* name) {
  void* const found = libsndfile() == nullptr ? nullptr : ::dlsym(libsndfile(), name);
  if (found == nullptr) throw std::logic_error(fmt::format("{} has no {}", INSIDELINE_SNDFILE, name));
  return reinterpret_cast<Function*>(found);  // NOLINT(cppcoreguidelines-pro-type-reinterpret-cast): what dlsym is for
}

sf_count_t size_of_memory(void* user) { return static_cast<sf_count_t>(static_cast<InMemory*>(user)->bytes.size()); }

sf_count_t seek_in_memory(sf_count_t offset, int whence, void* user) {
  InMemory& memory = *static_cast<InMemory*>(user);
  const auto size = static_cast<sf_count_t>(memory.bytes.size());
  const sf_count_t from = whence == SEEK_CUR ? memory.at : whence == SEEK_END ? size : 0;
  memory.at = std::clamp<sf_count_t>(from + std::clamp(offset, -size, size), 0, size);
  return memory.at;
}

sf_count_t read_memory(void* to, sf_count_t count, void* user) {
  InMemory& memory = *static_cast<InMemory*>(user);
  const sf_count_t left = static_cast<sf_count_t>(memory.bytes.size()) - memory.at;
  const sf_count_t taken = std::clamp<sf_count_t>(count, 0, left);
  std::memcpy(to, memory.bytes.data() + memory.at, static_cast<std::size_t>(taken));
  memory.at += taken;
  return taken;
}

sf_count_t tell_in_memory(void* user) { return static_cast<InMemory*>(user)->at; }

constexpr int lowest_rate = 8'000;  // a telephone line; less carries no instrument
constexpr int highest_rate = 192'000;
constexpr int most_channels = 64;

}  // namespace

struct SoundFile::Opened {
  SNDFILE* handle = nullptr;
  SF_INFO info{};
  InMemory memory{};
  SF_VIRTUAL_IO doors{size_of_memory, seek_in_memory, read_memory, nullptr, tell_in_memory};

  Opened() = default;
  Opened(const Opened&) = delete;
  Opened& operator=(const Opened&) = delete;
  ~Opened() {
    if (handle != nullptr) in_libsndfile<decltype(sf_close)>("sf_close")(handle);
  }
};

namespace {

void load_libsndfile(const std::string& name) {
  if (libsndfile() == nullptr)
    throw ReadError(place_of(name), "recordings need the library " INSIDELINE_SNDFILE
                                    ", which is not installed; Debian has it in the package libsndfile1");
}

}  // namespace

SoundFile::SoundFile(const std::filesystem::path& file)
    : name_(file.filename().string()), opened_(std::make_unique<Opened>()) {
  expect_ordinary_file(file);
  const std::string beginning = first_bytes(file);
  refuse_other_kinds(beginning, name_);
  const std::uintmax_t size = std::filesystem::file_size(file);
  check_wav_head(beginning, size, name_);
  if (is_ogg(beginning))
    check_ogg_end(
        bytes_from(file, size - std::min<std::uintmax_t>(size, 2 * largest_page_bytes), 2 * largest_page_bytes), name_);
  load_libsndfile(name_);
  opened_->handle = in_libsndfile<decltype(sf_open)>("sf_open")(file.c_str(), SFM_READ, &opened_->info);
  take_head();
}

SoundFile::SoundFile(std::string_view bytes, std::string_view file_name)
    : name_(file_name), opened_(std::make_unique<Opened>()) {
  refuse_other_kinds(bytes, name_);
  check_wav_head(bytes, bytes.size(), name_);
  if (is_ogg(bytes)) check_ogg_end(bytes, name_);
  load_libsndfile(name_);
  opened_->memory.bytes = bytes;
  const auto open = in_libsndfile<decltype(sf_open_virtual)>("sf_open_virtual");
  opened_->handle = open(&opened_->doors, SFM_READ, &opened_->info, &opened_->memory);
  take_head();
}

SoundFile::~SoundFile() = default;

void SoundFile::take_head() {
  if (opened_->handle == nullptr) {
    const std::string why = in_libsndfile<decltype(sf_strerror)>("sf_strerror")(nullptr);
    throw ReadError(place_of(name_),
                    fmt::format("the recording cannot be opened ({}); record or export it again as WAV",
                                why.substr(0, why.find_last_not_of(" .\n") + 1)));
  }
  rate_ = opened_->info.samplerate;
  channels_ = opened_->info.channels;
  frames_ = opened_->info.frames == SF_COUNT_MAX ? 0 : opened_->info.frames;
  if (rate_ < lowest_rate || rate_ > highest_rate)
    throw ReadError(place_of(name_), fmt::format("{} samples a second; {} to {} can be read, 44100 is usual", rate_,
                                                 lowest_rate, highest_rate));
  if (channels_ < 1 || channels_ > most_channels)
    throw ReadError(place_of(name_), fmt::format("{} channels; record one or two", channels_));
  if (frames_ > longest_recording_seconds * rate_)
    throw ReadError(place_of(name_), "the recording is longer than an hour; cut it to the take");
}

std::size_t SoundFile::read(std::span<float> samples) {
  const auto most = static_cast<sf_count_t>(samples.size()) / channels_;
  const auto got = in_libsndfile<decltype(sf_readf_float)>("sf_readf_float")(opened_->handle, samples.data(), most);
  return static_cast<std::size_t>(std::max<sf_count_t>(got, 0));
}

#else

struct SoundFile::Opened {};

namespace {

[[noreturn]] void refuse_recordings(const std::string& name) {
  throw ReadError(place_of(name), "this build reads no recordings; give it the MIDI file of the take");
}

}  // namespace

SoundFile::SoundFile(const std::filesystem::path& file) : name_(file.filename().string()) { refuse_recordings(name_); }
SoundFile::SoundFile(std::string_view /*bytes*/, std::string_view file_name) : name_(file_name) {
  refuse_recordings(name_);
}
SoundFile::~SoundFile() = default;
void SoundFile::take_head() {}
std::size_t SoundFile::read(std::span<float> /*samples*/) { return 0; }

#endif

}  // namespace insideline::io
