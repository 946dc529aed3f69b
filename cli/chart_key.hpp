// --key: the changes in another key.
#pragma once

#include "analyzer/model/changes.hpp"

#include <optional>
#include <string>

namespace insideline::cli {

/// What CLI11 asks of a check: empty where `text` names a tonic, else what is wrong with it.
std::string not_a_tonic(const std::string& text);

/// The changes moved to that tonic, at most a tritone up or a fourth down; as they are where none is given. Throws
/// io::ReadError where the changes, named `file`, do not say their key.
Changes in_key(const std::optional<NoteName>& tonic, const Changes& changes, const std::string& file);

}  // namespace insideline::cli
