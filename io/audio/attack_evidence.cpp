#include "io/audio/attack_evidence.hpp"

#include <algorithm>

namespace insideline::io {
namespace {

// Chosen by rendered_instruments (tests/io/audio), as is all of what follows.
constexpr std::size_t peak_reach = 3;  // moments: the highest rise among so many on either side
constexpr std::size_t mean_reach = 9;
constexpr float above_mean = 1.2F;   // vibrato makes many small rises
constexpr float full_rise = 0.065F;  // tens of decibels: as sure as it gets
constexpr float least_rise = 0.02F;  // less is no attack, however the level dips
constexpr std::size_t dip_reach = 12;
constexpr float no_dip_db = 2.5F;  // tremolo
constexpr float full_dip_db = 9.0F;

constexpr std::size_t just_before_reach = 2;
constexpr float come_back = 0.6F;  // of the dip
constexpr std::size_t swell_reach = 6;
constexpr float full_swell_db = 3.0F;  // partials that rise while the level does not are a change of colour
constexpr float without_swell = 0.5F;

struct Surroundings {
  std::size_t from;
  std::size_t to;  ///< behind the last
};

Surroundings around(std::size_t at, std::size_t reach, std::size_t size) {
  return {at > reach ? at - reach : 0, std::min(at + reach + 1, size)};
}

float level(const std::deque<Moment>& moments, std::size_t at) { return moments[at].attack.level_db; }

float highest_level(const std::deque<Moment>& moments, std::size_t from, std::size_t to) {
  float highest = -200.0F;
  for (std::size_t i = from; i < to; ++i) highest = std::max(highest, level(moments, i));
  return highest;
}

/// How far the level was down, against the louder of what lies before and what comes back. Nothing where the level has
/// come back already: what rises then is the swell of the same note.
float dip_before(const std::deque<Moment>& moments, std::size_t at) {
  const auto [from, to] = around(at, dip_reach, moments.size());
  std::size_t lowest = at;
  for (std::size_t i = from; i <= at; ++i)
    if (level(moments, i) < level(moments, lowest)) lowest = i;
  const float before = highest_level(moments, around(lowest, dip_reach, moments.size()).from, lowest + 1);
  const float after = highest_level(moments, at, to);
  const float dip = std::min(before, after) - level(moments, lowest);
  const std::size_t just_before = at > just_before_reach ? at - just_before_reach : 0;
  return level(moments, std::max(just_before, lowest)) - level(moments, lowest) > come_back * dip ? 0.0F : dip;
}

/// How far the level rises around the moment.
float swell_at(const std::deque<Moment>& moments, std::size_t at) {
  const auto [from, to] = around(at, swell_reach, moments.size());
  float lowest = level(moments, at);
  for (std::size_t i = from; i <= at; ++i) lowest = std::min(lowest, level(moments, i));
  return highest_level(moments, at, to) - lowest;
}

}  // namespace

float attack_evidence(const std::deque<Moment>& moments, std::size_t at) {
  const float rise = moments[at].attack.rise;
  if (rise < least_rise) return 0.0F;
  const Surroundings near = around(at, peak_reach, moments.size());
  for (std::size_t i = near.from; i < near.to; ++i)
    if (moments[i].attack.rise > rise) return 0.0F;
  const Surroundings wide = around(at, mean_reach, moments.size());
  float sum = 0.0F;
  for (std::size_t i = wide.from; i < wide.to; ++i) sum += moments[i].attack.rise;
  const float mean = sum / static_cast<float>(wide.to - wide.from);
  const float swell = std::clamp(swell_at(moments, at) / full_swell_db, 0.0F, 1.0F);
  const float by_rise =
      std::clamp((rise - above_mean * mean) / full_rise, 0.0F, 1.0F) * (without_swell + (1.0F - without_swell) * swell);
  const float by_dip = std::clamp((dip_before(moments, at) - no_dip_db) / (full_dip_db - no_dip_db), 0.0F, 1.0F);
  return 1.0F - (1.0F - by_rise) * (1.0F - by_dip);  // two signs say more than one
}

}  // namespace insideline::io
