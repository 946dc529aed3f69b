// Any bytes are read as a tune in ABC or refused with a place. A tune that is read has bars without gaps, and its notes
// lie in them one after another.
#include "io/abc/abc.hpp"
#include "io/read_result.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

namespace {

void must(bool holds) {
  if (!holds) std::abort();
}

void check_solo(const insideline::Solo& solo) {
  must(!solo.notes.empty() && !solo.bars.empty());
  insideline::Beats now = solo.bars.front().onset;
  for (const insideline::Bar& bar : solo.bars) {
    must(bar.onset == now && bar.length > insideline::Beats{});
    now += bar.length;
  }
  insideline::Beats before = solo.bars.front().onset;
  for (const insideline::Note& note : solo.notes) {
    must(note.onset >= before && end_of(note) <= now);
    must(note.grace == (note.duration == insideline::Beats{}));
    must(midi_number(note.pitch) >= 0 && midi_number(note.pitch) <= 127);
    before = note.onset;
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  for (const auto road_map : {insideline::io::RoadMap::played, insideline::io::RoadMap::as_written}) {
    insideline::io::ReadOptions options;
    options.road_map = road_map;
    try {
      check_solo(insideline::io::parse_abc(bytes, "fuzz.abc", options).solo);
    } catch (const insideline::io::ReadError& error) {
      must(std::string_view(error.what()).starts_with("fuzz.abc"));
      must(error.place().line >= 0 && error.place().column >= 0);
    }
  }
  return 0;
}
