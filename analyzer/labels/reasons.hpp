// Says in one short sentence why a note is labelled as it is, in words a student understands.
#pragma once

#include "analyzer/labels/reading.hpp"

#include <string>
#include <vector>

namespace insideline {

/// What a sentence about note `index` of `chain` is put together from.
struct ReasonContext {
  const Solo& solo;
  const Harmony& harmony;
  const Chain& chain;
  std::size_t index = 0;
  const Reading& reading;
  const std::vector<NoteLabel>& labels;  ///< all labels of the solo, degrees and governors already set
};

std::string reason_for(const ReasonContext& context);

/// "half a beat", "a beat", "2 beats": a distance in counted quarters.
std::string beats_in_words(const Beats& distance);

}  // namespace insideline
