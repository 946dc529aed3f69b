// MIDI files written out in hexadecimal, for the tests.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace insideline::tests {

/// "4D 54 [41 x3]" is MTAAA.
std::string bytes_from(std::string_view hexadecimal);

/// A file of one or more tracks at 96 ticks a quarter; each of `tracks` is in hexadecimal, end-of-track included.
std::string smf_with(const std::vector<std::string>& tracks, std::string_view format_and_count = "");

struct Probe {
  std::string name;
  std::string what;
  std::string strict;    ///< the number of notes, or byte and words of the refusal
  std::string salvaged;  ///< likewise
  std::string bytes;
};

/// All rows of tests/io/data/smf_probes.tsv.
std::vector<Probe> smf_probes();

}  // namespace insideline::tests
