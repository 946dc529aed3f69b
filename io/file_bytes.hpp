// Reads a whole file once, with a limit on its size.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>

namespace insideline::io {

/// Throws ReadError where there is no file, a folder, or a pipe or device, which could wait or never end.
void expect_ordinary_file(const std::filesystem::path& file);

/// The bytes of a regular file. Throws ReadError where it is missing, a folder, not
/// a regular file, unreadable, empty, or larger than `limit_bytes` (checked before reading).
std::string read_bytes(const std::filesystem::path& file, std::size_t limit_bytes);

}  // namespace insideline::io
