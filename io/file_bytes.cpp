#include "io/file_bytes.hpp"

#include "io/read_result.hpp"

#include <fmt/format.h>

#include <cstdint>
#include <fstream>
#include <system_error>

namespace insideline::io {
namespace {

[[noreturn]] void refuse(const std::filesystem::path& file, std::string_view why) {
  throw ReadError(place_of(file.string()), why);
}

std::string in_mebibytes(std::uintmax_t bytes) {
  constexpr double mebibyte = 1024.0 * 1024.0;
  return fmt::format("{:.1f} MiB", static_cast<double>(bytes) / mebibyte);
}

std::size_t checked_size(const std::filesystem::path& file, std::size_t limit_bytes) {
  std::error_code unknown;
  const std::uintmax_t size = std::filesystem::file_size(file, unknown);
  if (unknown) refuse(file, fmt::format("the size of the file cannot be read: {}", unknown.message()));
  if (size == 0) refuse(file, "the file is empty; export or save it again");
  if (size > limit_bytes)
    refuse(file, fmt::format("the file has {}, more than the {} that are read; is it the right file?",
                             in_mebibytes(size), in_mebibytes(limit_bytes)));
  return static_cast<std::size_t>(size);
}

}  // namespace

void expect_ordinary_file(const std::filesystem::path& file) {
  std::error_code unknown;
  const std::filesystem::file_status status = std::filesystem::status(file, unknown);
  if (status.type() == std::filesystem::file_type::not_found)
    refuse(file, "there is no such file; check the name and the folder");
  if (status.type() == std::filesystem::file_type::directory) refuse(file, "this is a folder; name a file in it");
  if (unknown) refuse(file, fmt::format("the file cannot be reached: {}", unknown.message()));
  if (status.type() != std::filesystem::file_type::regular)
    refuse(file, "this is not an ordinary file; save the score to a file first");
}

std::string read_bytes(const std::filesystem::path& file, std::size_t limit_bytes) {
  expect_ordinary_file(file);
  std::string bytes(checked_size(file, limit_bytes), '\0');
  std::ifstream stream(file, std::ios::binary);
  if (!stream) refuse(file, "the file cannot be opened; check that you may read it");
  stream.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  bytes.resize(static_cast<std::size_t>(stream.gcount()));
  if (stream.bad() || bytes.empty()) refuse(file, "the file cannot be read; check that you may read it");
  return bytes;
}

}  // namespace insideline::io
