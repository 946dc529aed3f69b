// Any bytes are read as a score or refused with a place, played out and as written. A solo that is read keeps
// the promises of the model: bars without gaps, notes in order and inside them, chords in order.
#include "io/musicxml/musicxml.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

namespace {

using insideline::Beats;

void require(bool holds) {
  if (!holds) std::abort();
}

void check_bars(const insideline::Solo& solo) {
  require(!solo.bars.empty());
  Beats now = solo.bars.front().number == 0 ? -solo.bars.front().length : Beats{};
  for (const insideline::Bar& bar : solo.bars) {
    require(bar.onset == now && bar.length > Beats{} && bar.meter.beats > 0);
    now += bar.length;
  }
}

void check_notes(const insideline::Solo& solo) {
  require(!solo.notes.empty());
  Beats now = solo.bars.front().onset;
  for (const insideline::Note& note : solo.notes) {
    require(note.onset >= now && note.onset <= end_of(solo));
    require(note.grace ? note.duration == Beats{} : note.duration > Beats{});
    require(midi_number(note.pitch) >= 0 && midi_number(note.pitch) <= 127);
    now = note.onset;
  }
}

void check_changes(const insideline::Changes& changes) {
  Beats now(-1'000'000'000);
  for (const insideline::ChordSpan& span : changes.spans) {
    require(span.onset >= now && span.duration > Beats{});
    now = span.onset + span.duration;
  }
}

void check(const std::string& bytes, insideline::io::RoadMap road_map) {
  try {
    const auto score = insideline::io::parse_musicxml(bytes, "fuzz.xml", {.road_map = road_map});
    check_bars(score.solo);
    check_notes(score.solo);
    if (score.changes) check_changes(*score.changes);
  } catch (const insideline::io::ReadError& error) {
    require(std::string_view(error.what()).starts_with("fuzz.xml"));
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string bytes(data, data + size);
  check(bytes, insideline::io::RoadMap::played);
  check(bytes, insideline::io::RoadMap::as_written);
  return 0;
}
