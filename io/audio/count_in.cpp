#include "io/audio/count_in.hpp"

#include "io/audio/attack_evidence.hpp"

#include <algorithm>
#include <cmath>

namespace insideline::io {
namespace {

// Common practice, no source. Moments are 5.8 ms apart.
constexpr float sharp_attack = 0.5F;
constexpr std::size_t gone_after = 16;  // moments, a tenth of a second
constexpr float gone_db = 12.0F;
constexpr float quietest_click_db = -30.0F;  // against the loudest moment
constexpr std::size_t shortest_beat = 34;    // moments: a quarter note of 300
constexpr std::size_t longest_beat = 345;    // of 30
constexpr double uneven = 0.06;              // of a beat: a drummer's sticks
constexpr std::size_t fewest_clicks = 3;

}  // namespace

bool is_click(const std::deque<Moment>& moments, std::size_t at, float attack, float loudest_db) {
  if (attack < sharp_attack || at + gone_after >= moments.size()) return false;
  float top = moments[at].attack.level_db;
  for (std::size_t i = at; i < at + 4; ++i) top = std::max(top, moments[i].attack.level_db);
  return top > loudest_db + quietest_click_db && moments[at + gone_after].attack.level_db < top - gone_db;
}

std::vector<std::size_t> count_in(std::span<const std::size_t> clicks) {
  for (std::size_t first = 0; first + fewest_clicks <= clicks.size(); ++first) {
    std::vector<std::size_t> even{clicks[first]};
    for (std::size_t next = first + 1; next < clicks.size(); ++next) {
      const double apart = static_cast<double>(clicks[next] - even.back());
      if (even.size() == 1 && (apart < shortest_beat || apart > longest_beat)) break;
      if (even.size() > 1) {
        const double beat = static_cast<double>(even.back() - even.front()) / static_cast<double>(even.size() - 1);
        if (std::abs(apart - beat) > uneven * beat + 1.0) break;
      }
      even.push_back(clicks[next]);
    }
    if (even.size() >= fewest_clicks) return even;
  }
  return {};
}

}  // namespace insideline::io
