#include "io/audio/attack_evidence.hpp"

#include <algorithm>

namespace insideline::io {
namespace {

// Chosen with benchmarks/hearing_benchmark, as is all of what follows.
constexpr std::size_t peak_reach = 3;    // moments: the highest rise among so many on either side
constexpr std::size_t mean_reach = 9;
constexpr float above_mean = 1.2F;       // vibrato makes many small rises
constexpr float full_rise = 0.12F;       // tens of decibels: as sure as it gets
constexpr float least_rise = 0.02F;      // less is no attack, however the level dips
constexpr std::size_t dip_reach = 12;
constexpr float no_dip_db = 2.5F;        // tremolo
constexpr float full_dip_db = 9.0F;

struct Surroundings {
  std::size_t from;
  std::size_t to;  ///< behind the last
};

Surroundings around(std::size_t at, std::size_t reach, std::size_t size) {
  return {at > reach ? at - reach : 0, std::min(at + reach + 1, size)};
}

float highest_level(const std::deque<Moment>& moments, std::size_t from, std::size_t to) {
  float highest = -200.0F;
  for (std::size_t i = from; i < to; ++i) highest = std::max(highest, moments[i].attack.level_db);
  return highest;
}

/// How far the level was down, against the louder of what lies before and what comes back.
float dip_before(const std::deque<Moment>& moments, std::size_t at) {
  const auto [from, to] = around(at, dip_reach, moments.size());
  std::size_t lowest = at;
  for (std::size_t i = from; i <= at; ++i)
    if (moments[i].attack.level_db < moments[lowest].attack.level_db) lowest = i;
  const float before = highest_level(moments, around(lowest, dip_reach, moments.size()).from, lowest + 1);
  const float after = highest_level(moments, at, to);
  return std::min(before, after) - moments[lowest].attack.level_db;
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
  const float by_rise = std::clamp((rise - above_mean * mean) / full_rise, 0.0F, 1.0F);
  const float by_dip = std::clamp((dip_before(moments, at) - no_dip_db) / (full_dip_db - no_dip_db), 0.0F, 1.0F);
  return std::max(by_rise, by_dip);
}

}  // namespace insideline::io
