// Call and answer: a phrase and the one right after it that begins in the same rhythm. "Call" and "answer" as in common
// practice; how much of the rhythm must be the same is our own choice.
#pragma once

#include "analyzer/heard_line.hpp"
#include "analyzer/patterns/results.hpp"

#include <cstddef>
#include <span>
#include <vector>

namespace insideline {

struct CallAndAnswer {
  std::size_t first = 0;   ///< of the call, into Solo::notes
  std::size_t last = 0;    ///< included
  std::size_t answer = 0;  ///< the answer's first note
  std::size_t notes = 0;   ///< of the call
};

/// Two phrases in a row of three to twelve notes, the second at most four bars after the first, which begin at the same
/// place of the bar and share the rhythm of their first four notes (three, where one has no more) and of three in four
/// of the shorter one. Even notes throughout are no rhythm to answer, and the same notes again are no answer. What
/// belongs to a riff is none. In order; no two pairs share a phrase.
std::vector<CallAndAnswer> find_calls_and_answers(const HeardLine& line, const Solo& solo, std::span<const Riff> riffs);

}  // namespace insideline
