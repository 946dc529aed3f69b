#include "io/database/new_file.hpp"

#include <filesystem>
#include <system_error>
#include <utility>

namespace insideline::io {

NewFile::NewFile(std::string file) : file_(std::move(file)) {
  std::error_code failed;
  is_new_ = !file_.empty() && !std::filesystem::exists(file_, failed) && !failed;
}

NewFile::~NewFile() {
  std::error_code ignored;
  const bool is_empty = std::filesystem::exists(file_, ignored) && std::filesystem::file_size(file_, ignored) == 0;
  if (!is_new_ || !(is_empty || holds_nothing_)) return;
  for (const char* ending : {"", "-journal", "-wal", "-shm"}) std::filesystem::remove(file_ + ending, ignored);
}

}  // namespace insideline::io
