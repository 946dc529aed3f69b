// LilyPond, as far as we need it: text of ours in, the bytes of a PDF out.
#pragma once

#include <chrono>
#include <stdexcept>
#include <string>
#include <string_view>

namespace insideline::cli {

/// No page came of it. `what()` says why and what to do.
class EngravingError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Throws EngravingError. `text` is run as a program by LilyPond: only what reports/printed makes may come here.
std::string engraved_pdf(std::string_view text, std::chrono::seconds time_limit);

}  // namespace insideline::cli
