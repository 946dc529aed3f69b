// Which chart a practice sheet is made over: a changes file, in another key, through all keys, or a part of it.
#pragma once

#include "analyzer/key_moves.hpp"
#include "analyzer/model/changes.hpp"
#include "io/changes/changes_file.hpp"

#include <cstddef>
#include <optional>
#include <string>

namespace CLI {
class App;
}

namespace insideline::cli {

struct ChartOptions {
  std::string file;
  std::optional<NoteName> tonic;       ///< of --key
  std::optional<KeyOrder> all_keys;    ///< of --all-keys
  std::optional<std::string> section;  ///< "B", "last A"
  std::optional<std::string> bars;     ///< "9-16"
};

/// `options` must live as long as `command`.
void add_chart_options(CLI::App& command, ChartOptions& options);

/// The chart as it was asked for; its title says which part of it this is. Throws io::ReadError, and prints what is
/// odd.
io::ChartReading chosen_chart(const ChartOptions& options);

/// What CLI11 asks of a check: empty where `text` names a tonic, else what is wrong with it.
std::string not_a_tonic(const std::string& text);

/// The key of the chart in `file`. Throws io::ReadError where it says none, which `option` needs.
Key key_of_chart(const Changes& changes, const std::string& file, const std::string& option);

/// The key on that tonic, in the mode of `key`. Throws io::ReadError where it needs more than seven signs.
Key key_on(const NoteName& tonic, const Key& key, const std::string& file);

}  // namespace insideline::cli
