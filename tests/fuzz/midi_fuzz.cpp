// Any bytes as a MIDI file: the check, then our reader and libsmf on what the check wrote, and for one input in 64 the
// whole import. A clean file must pass the check unchanged, libsmf must have nothing to say about it, and both readers
// must find the same events. Finding the rhythm takes a hundred times as long as all of the rest, so few inputs get so
// far; which ones depends on their bytes alone, so that a find comes up again. A seed and a kept find are imported
// whole by the ordinary tests.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

#include "io/content_hash.hpp"
#include "io/midi/midi.hpp"
#include "io/midi/smf_check.hpp"
#include "io/midi/smf_events.hpp"
#include "tests/io/midi/second_reader.hpp"

using insideline::io::Damage;

namespace {

void demand(bool holds) {
  if (!holds) std::abort();
}

void import_whole(std::string_view bytes, Damage damage) {
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

/// Whether the file can be read.
bool read(std::string_view bytes, Damage damage) {
  constexpr std::uint64_t one_in = 64;
  const auto checked = insideline::io::check_smf(bytes, {.damage = damage});
  if (!checked) return false;
  const auto again = insideline::io::check_smf(checked->clean);
  demand(again && again->clean == checked->clean && again->findings.empty());
  const auto events = insideline::io::events_of(checked->clean);
  const auto second = insideline::tests::read_by_libsmf(checked->clean);
  demand(second.complaints.empty() && second.events == events);
  demand(events.tracks.size() == checked->track_numbers.size());
  if (insideline::io::content_hash(bytes).low % one_in == 0) import_whole(bytes, damage);
  return true;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view bytes(reinterpret_cast<const char*>(data), size);
  if (!read(bytes, Damage::refused)) read(bytes, Damage::salvaged);
  return 0;
}
