// Any bytes as a MIDI file: the check, then libsmf on what the check wrote, then the whole import. A clean file must
// pass the check unchanged, and libsmf must have nothing to say about it.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "io/midi/midi.hpp"
#include "io/midi/smf_check.hpp"
#include "io/midi/smf_handle.hpp"

using insideline::io::Damage;

namespace {

void demand(bool holds) {
  if (!holds) std::abort();
}

void read(std::string_view bytes, Damage damage) {
  const auto checked = insideline::io::check_smf(bytes, {.damage = damage});
  if (!checked) return;
  const auto again = insideline::io::check_smf(checked->clean);
  demand(again && again->clean == checked->clean && again->findings.empty());
  const auto loaded = insideline::io::load_smf(checked->clean);
  demand(loaded.library_messages.empty() && loaded.tracks.size() == checked->track_numbers.size());
  insideline::io::ReadOptions options;
  options.damage = damage;
  try {
    const auto result = insideline::io::parse_midi(bytes, "fuzz.mid", options);
    demand(!result.solo.notes.empty() && !result.solo.bars.empty());
    demand(result.solo.notes.front().onset >= result.solo.bars.front().onset);
    demand(end_of(result.solo.notes.back()) <= end_of(result.solo));
    demand(result.solo.performed.empty() || result.solo.performed.size() == result.solo.notes.size());
  } catch (const insideline::io::ReadError&) {
    return;
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  read(bytes, Damage::refused);
  read(bytes, Damage::salvaged);
  return 0;
}
