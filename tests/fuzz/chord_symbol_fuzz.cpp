// Any bytes are read or refused, and what is read can be written plainly and read again as the same chord.
#include "analyzer/harmony/academic_label.hpp"
#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/harmony/musicxml_kind.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <optional>
#include <string>
#include <string_view>

namespace {

void expect_same(const insideline::SymbolReading& again, const insideline::Chord& chord) {
  if (!again || !*again || !insideline::same_chord(**again, chord)) std::abort();
}

void check_chord(const insideline::Chord& chord) {
  expect_same(insideline::parse_chord_symbol(chord.symbol), chord);
  expect_same(insideline::parse_chord_symbol(insideline::canonical_symbol(chord)), chord);
  expect_same(insideline::chord_from_musicxml(insideline::musicxml_from_chord(chord)), chord);
  insideline::academic_label(chord);
  insideline::transposed(chord, {2, 3});
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string text;
  for (std::size_t i = 0; i < size; ++i) text.push_back(static_cast<char>(data[i]));
  const auto reading = insideline::parse_chord_symbol(text);
  if (reading && *reading) check_chord(**reading);
  if (!reading && (reading.error().message.empty() || reading.error().offset_bytes > size)) std::abort();
  insideline::MusicxmlChord element;
  element.kind = text;
  element.text = text;
  if (const auto chord = insideline::chord_from_musicxml(element); chord && *chord) check_chord(**chord);
  return 0;
}
