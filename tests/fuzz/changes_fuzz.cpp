// Any bytes are read as changes or refused with a place. Changes that are read lie without gaps, and fill their bars.
#include "io/changes/changes_file.hpp"
#include "io/read_result.hpp"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

namespace {

void require(bool holds) {
  if (!holds) std::abort();
}

void check_changes(const insideline::Changes& changes) {
  require(!changes.bars.empty() && changes.bars.size() <= 10'000);
  insideline::Beats now;
  for (const insideline::FormBar& bar : changes.bars) {
    require(bar.onset == now && bar.length == bar_length(meter_of(changes, bar)));
    now += bar.length;
  }
  require(now == form_length(changes));
  now = {};
  for (const insideline::ChordSpan& span : changes.spans) {
    require(span.onset == now && span.duration > insideline::Beats{});
    now += span.duration;
  }
  require(now == form_length(changes));
  if (changes.key) require(!to_string(*changes.key).empty());
  transposed(changes, insideline::usual_interval(-14));
}

void check_error(const insideline::io::ReadError& error) {
  const insideline::io::Place& place = error.place();
  require(std::string_view(error.what()).starts_with("fuzz.changes"));
  require(place.line >= 0 && place.column >= 0 && place.caret >= 0);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string text;
  for (std::size_t i = 0; i < size; ++i) text.push_back(static_cast<char>(data[i]));
  try {
    check_changes(insideline::io::parse_changes(text, "fuzz.changes"));
  } catch (const insideline::io::ReadError& error) {
    check_error(error);
  }
  return 0;
}
