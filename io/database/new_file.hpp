// Takes a database away again that was begun and did not come to hold anything.
#pragma once

#include <string>

namespace insideline::io {

/// Takes the file away at the end if it is new and still empty, or was said to hold nothing. Promise: a file that was
/// there before is never taken away.
class NewFile {
 public:
  /// To be made before `file` is opened, and to go after it was closed; the empty name is no file.
  explicit NewFile(std::string file);
  NewFile(const NewFile&) = delete;
  NewFile& operator=(const NewFile&) = delete;
  ~NewFile();

  [[nodiscard]] bool is_new() const { return is_new_; }
  void holds_nothing() { holds_nothing_ = true; }

 private:
  std::string file_;
  bool is_new_ = false;
  bool holds_nothing_ = false;
};

}  // namespace insideline::io
