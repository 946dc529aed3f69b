// Any bytes are read as what a teacher hears or refused with a place. Every pin that is read speaks of a note, each of
// another one.
#include "analyzer/pin.hpp"
#include "io/hearing/hearing_file.hpp"
#include "io/read_result.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <set>
#include <string>
#include <string_view>

namespace {

using insideline::Beats;

void require(bool holds) {
  if (!holds) std::abort();
}

/// Two bars of triplets, with two grace notes before beat 3 of the first.
insideline::Solo small_solo() {
  insideline::Solo solo;
  for (int bar = 0; bar < 2; ++bar)
    solo.bars.push_back({.number = bar + 1, .onset = 4 * bar, .length = 4, .meter = {}});
  for (int third = 0; third < 24; ++third) {
    insideline::Note note{.onset = Beats(third, 3), .duration = Beats(1, 3), .pitch = {}, .written = {}, .place = {}};
    for (int grace = 0; third == 6 && grace < 2; ++grace) {
      solo.notes.push_back(note);
      solo.notes.back().duration = 0;
      solo.notes.back().grace = true;
    }
    solo.notes.push_back(note);
  }
  return solo;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static const insideline::Solo solo = small_solo();
  std::string text;
  for (std::size_t i = 0; i < size; ++i) text.push_back(static_cast<char>(data[i]));
  try {
    const auto hearing = insideline::io::parse_hearing(text, "fuzz.hearing", solo);
    require(hearing.pins.size() == hearing.places.size());
    std::set<std::size_t> notes;
    for (const insideline::Pin& pin : hearing.pins) require(notes.insert(pinned_note(solo, pin).value()).second);
  } catch (const insideline::io::ReadError& error) {
    require(std::string_view(error.what()).starts_with("fuzz.hearing:"));
    require(error.place().line > 0 && error.place().column > 0);
  }
  return 0;
}
