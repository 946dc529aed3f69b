#include "tests/support/drilled.hpp"

#include "analyzer/harmony/chord_symbol.hpp"

#include <catch2/catch.hpp>

#include <array>
#include <random>
#include <sstream>
#include <vector>

namespace insideline::tests {

Changes chart(std::string_view bars, const Meter& meter) {
  Changes changes;
  changes.title = "Test";
  changes.meter = meter;
  std::istringstream lines{std::string(bars)};
  std::vector<std::optional<Chord>> last;
  for (std::string bar; std::getline(lines, bar, '|');) {
    std::istringstream words(bar);
    std::vector<std::optional<Chord>> chords;
    for (std::string word; words >> word;) {
      if (word == "%") {
        chords = last;
        continue;
      }
      const auto reading = parse_chord_symbol(word);
      REQUIRE(reading);
      chords.push_back(*reading);
    }
    last = chords;
    const Beats onset = bar_length(meter) * Beats(static_cast<std::int64_t>(changes.bars.size()));
    const Beats share = bar_length(meter) / static_cast<std::int64_t>(chords.size());
    changes.bars.push_back({onset, bar_length(meter), ""});
    for (std::size_t i = 0; i < chords.size(); ++i)
      changes.spans.push_back({chords[i], onset + share * Beats(static_cast<std::int64_t>(i)), share});
  }
  return changes;
}

Drill drilled(const Changes& changes, const DrillSettings& settings) {
  const auto drill = drill_over(changes, settings);
  INFO((drill ? "" : drill.error()));
  REQUIRE(drill);
  return *drill;
}

std::string names_of(const Drill& drill) {
  std::string text;
  for (const Bar& bar : drill.solo.bars) {
    if (!text.empty()) text += " | ";
    std::string names;
    for (const Note& note : drill.solo.notes)
      if (note.onset >= bar.onset && note.onset < bar.onset + bar.length)
        names += (names.empty() ? "" : " ") + to_string(note.pitch);
    text += names.empty() ? "-" : names;
  }
  return text;
}

Changes random_chart(unsigned seed, int bars) {
  static constexpr std::array roots{"C", "Db", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"};
  static constexpr std::array kinds{"maj7", "7", "m7", "m7b5", "dim7", "6", "m6", "7(b9)", "9", "", "m", "7sus4"};
  std::mt19937 engine(seed);
  const auto one_of = [&](const auto& words) { return std::string(words.at(engine() % words.size())); };
  std::string text;
  for (int bar = 0; bar < bars; ++bar) {
    if (bar > 0) text += " | ";
    const unsigned lot = engine() % 4;
    if (lot == 0 && bar > 0) {
      text += "%";
      continue;
    }
    const std::string root = one_of(roots);
    text += root + one_of(kinds);
    if (lot == 1) {
      const std::string second = one_of(roots);
      text += " " + second + one_of(kinds);
    }
  }
  return chart(text);
}

}  // namespace insideline::tests
