// LilyPond, as far as we need it: text of ours in, the bytes of a PDF out.
#pragma once

#include <chrono>
#include <cstddef>
#include <functional>
#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::cli {

/// No page came of it. `what()` says why and what to do.
class EngravingError : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

/// Throws EngravingError, with the advice `instead` where LilyPond is not installed. `text` is run as a program by
/// LilyPond: only what reports/printed makes may come here.
std::string engraved_pdf(std::string_view text, std::chrono::seconds time_limit, std::string_view instead);

/// The same for several texts, in order; `time_limit` is for each of them. LilyPond takes as long to start as it takes
/// for a page, so that each of as many runs as there are cores gets its share of the texts.
std::vector<std::string> engraved_pdfs(const std::vector<std::string>& texts, std::chrono::seconds time_limit,
                                       std::string_view instead);

/// The advice to write LilyPond text with `command`.
std::string engraved_elsewhere(std::string_view command);

/// The systems of all `texts` as SVG files, in order. The texts are engraved side by side, as many as there are cores;
/// `done` is told how many are finished, from the calling thread. Throws EngravingError.
std::vector<std::string> engraved_systems(const std::vector<std::string>& texts, std::chrono::seconds time_limit,
                                          const std::function<void(std::size_t)>& done);

}  // namespace insideline::cli
