#include "tests/io/changes/chart_shorthand.hpp"

#include "io/changes/changes_file.hpp"
#include "io/read_result.hpp"

#include <catch2/catch.hpp>

namespace insideline::tests {

std::string played(const Changes& changes) {
  std::string line;
  for (const FormBar& bar : changes.bars) {
    line += line.empty() ? "" : " | ";
    std::string chords;
    for (const ChordSpan& span : changes.spans) {
      if (span.onset < bar.onset || span.onset >= bar.onset + bar.length) continue;
      chords += (chords.empty() ? "" : " ") + (span.chord ? span.chord->symbol : "N.C.");
      if (span.duration != Beats(4)) chords += ' ' + to_string(span.duration);
    }
    line += chords;
  }
  return line;
}

std::string whole_chart_error(std::string_view text) {
  try {
    const Changes changes = io::parse_changes(text, "a.changes");
    FAIL("read as " << played(changes));
  } catch (const io::ReadError& error) {
    return error.what();
  }
  return {};
}

std::string chart_error(std::string_view text) {
  const std::string whole = whole_chart_error(text);
  const std::string line = whole.substr(0, whole.find('\n'));
  constexpr std::string_view file = "a.changes:";
  CHECK(line.starts_with(file));
  return line.substr(std::min(file.size(), line.size()));
}

}  // namespace insideline::tests
