// Reads a whole file once, with a limit on its size.
#pragma once

#include <cstddef>
#include <filesystem>
#include <string>

namespace insideline::io {

/// The bytes of a regular file. Throws ReadError where it is missing, a folder, not
/// a regular file, unreadable, empty, or larger than `limit_bytes` (checked before reading).
std::string read_bytes(const std::filesystem::path& file, std::size_t limit_bytes);

}  // namespace insideline::io
