// The options of every command that reads a solo, and what they lead to: the solo,
// the changes laid out under it, and the analysis of both.
#pragma once

#include "analyzer/settings.hpp"
#include "io/read_solo.hpp"
#include "reports/report.hpp"

#include <cstdint>
#include <optional>
#include <string>

namespace CLI {
class App;
}

namespace insideline::cli {

enum class ChangesPitch : std::uint8_t { concert, written };

struct SoloOptions {
  std::string solo;
  std::optional<std::string> changes;
  ChangesPitch changes_pitch = ChangesPitch::concert;
  int start_bar = 1;
  io::ReadOptions reading;
  Settings settings;
};

/// `options` must live as long as `command`.
void add_solo_options(CLI::App& command, SoloOptions& options);

/// Reads and analyzes. Throws io::ReadError where the solo or the changes cannot be used.
reports::Report analyzed(const SoloOptions& options);

}  // namespace insideline::cli
