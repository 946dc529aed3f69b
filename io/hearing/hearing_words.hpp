// The words of a hearing file: what they say of a note.
#pragma once

#include "analyzer/pin.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace insideline::io {

/// A word of a line and where it begins in the text.
struct HearingWord {
  std::string_view text;
  std::size_t offset = 0;
};

/// A word that says nothing, or something against what was said before.
struct HearingFault {
  std::size_t offset = 0;
  std::string message;
};

/// Adds what `words` say to `pin`; the fault where they cannot be read.
std::optional<HearingFault> add_words(Pin& pin, const std::vector<HearingWord>& words);

/// Takes what another line says of the same note into `pin`; false, and nothing taken, where the two contradict.
bool take_other_line(Pin& pin, const Pin& other);

}  // namespace insideline::io
