#include "io/midi/page_place.hpp"

#include <array>
#include <cstdint>

namespace insideline::io {

std::optional<Beats> page_place(std::uint32_t ticks, std::uint32_t ticks_per_quarter) {
  constexpr std::array exact_parts = {24U, 32U, 10U, 7U, 9U};  // with what divides them
  constexpr std::array rounded_parts = {7U, 9U, 5U, 10U};
  constexpr std::uint32_t finest_resolution = 192;         // below it a tick is too long to be a rounding error
  const std::uint32_t within = ticks % ticks_per_quarter;  // 15 bits: products with parts stay in 32
  if (within == 0) return Beats(ticks / ticks_per_quarter);
  for (const std::uint32_t parts : exact_parts)
    if (within * parts % ticks_per_quarter == 0) return Beats(ticks, ticks_per_quarter);
  if (ticks_per_quarter < finest_resolution) return std::nullopt;
  for (const std::uint32_t parts : rounded_parts) {
    if (ticks_per_quarter % parts == 0) continue;
    const std::uint32_t part = (within * parts + ticks_per_quarter / 2) / ticks_per_quarter;
    const std::uint32_t exact = part * ticks_per_quarter;  // in ticks times parts
    const std::uint32_t away = within * parts > exact ? within * parts - exact : exact - within * parts;
    if (away > parts) continue;
    return Beats(ticks / ticks_per_quarter) + Beats(part, parts);
  }
  return std::nullopt;
}

bool is_plain_place(std::uint32_t ticks, std::uint32_t ticks_per_quarter) {
  constexpr std::uint32_t quarters = 4;
  constexpr std::uint32_t thirds = 3;
  const std::uint32_t within = ticks % ticks_per_quarter;
  return within * quarters % ticks_per_quarter == 0 || within * thirds % ticks_per_quarter == 0;
}

}  // namespace insideline::io
