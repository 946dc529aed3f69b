#include "io/audio/note_path.hpp"

#include <algorithm>
#include <cmath>

namespace insideline::io {
namespace {

// Costs are negative logarithms. The values were chosen by rendered_instruments (tests/io/audio).
constexpr float pitch_spread = 0.32F;  // semitones, standard deviation: vibrato, and tuning inside a scale
constexpr float floor_of_fit = 0.02F;  // what a moment without any sign of a pitch is worth to it
constexpr float floor_of_silence = 0.04F;
constexpr float new_note = 13.0F;         // without any attack
constexpr float attack_gain = 10.0F;      // taken off for a sure attack
constexpr float attack_ignored = 9.0F;    // a note that goes on through a sure attack
constexpr float same_pitch_again = 1.0F;  // more than to another pitch: only an attack tells the two apart
constexpr float octave_leap = 3.0F;       // more than another interval: most heard octaves are slips of the ear
constexpr float into_silence = 3.0F;
constexpr float attack_fades = 0.93F;  // a moment

}  // namespace

float fit(const Moment& moment, float midi) {
  float sum = 0.0F;
  for (std::size_t i = 0; i < moment.count; ++i) {
    const float off = (moment.candidates.at(i).midi - midi) / pitch_spread;
    sum += moment.candidates.at(i).probability * std::exp(-0.5F * off * off);
  }
  return sum;
}

NotePath::NotePath(const PathSettings& settings)
    : settings_(settings), states_(static_cast<std::size_t>(settings.highest_midi - settings.lowest_midi) + 2) {}

std::vector<float> NotePath::pitch_costs(const Moment& moment, float sounds) const {
  std::vector<float> costs(states_);
  float voiced = 0.0F;
  for (std::size_t i = 0; i < moment.count; ++i) voiced += moment.candidates.at(i).probability;
  costs.front() = -std::log(floor_of_silence + (1.0F - std::min(1.0F, voiced) * sounds));
  for (std::size_t state = 1; state < states_; ++state) {
    const float midi = static_cast<float>(settings_.lowest_midi) + static_cast<float>(state) - 1.0F + settings_.tuning;
    costs[state] = -std::log(floor_of_fit + sounds * fit(moment, midi));
  }
  return costs;
}

std::size_t NotePath::best_state() const {
  return static_cast<std::size_t>(std::ranges::min_element(costs_) - costs_.begin());
}

void NotePath::add(const Moment& moment, float attack, float sounds) {
  const std::vector<float> here = pitch_costs(moment, sounds);
  std::vector<From> from(states_);
  if (costs_.empty()) {
    costs_ = here;
    for (std::size_t state = 1; state < states_; ++state) from[state].begins_note = true;
    from_.push_back(std::move(from));
    return;
  }
  recent_attack_ = std::max(attack, recent_attack_ * attack_fades);
  const float begin = new_note - attack_gain * recent_attack_;
  const float begin_again = new_note - attack_gain * attack + same_pitch_again;
  const std::size_t best = best_state();
  std::vector<float> costs(states_);
  for (std::size_t state = 1; state < states_; ++state) {
    costs[state] = costs_[state] + attack_ignored * attack;
    from[state] = {static_cast<std::uint8_t>(state), false};
    const auto try_from = [&](std::size_t other, float more) {
      const float cost = costs_[other] + more;
      if (cost >= costs[state]) return;
      costs[state] = cost;
      from[state] = {static_cast<std::uint8_t>(other), true};
    };
    const bool is_octave = best != 0 && (best > state ? best - state : state - best) == 12;
    try_from(state, begin_again);
    if (best != state) try_from(best, begin + (is_octave ? octave_leap : 0.0F));
    try_from(0, begin);
    costs[state] += here[state];
  }
  costs.front() = costs_.front();
  if (best != 0 && costs_[best] + into_silence < costs.front()) {
    costs.front() = costs_[best] + into_silence;
    from.front().state = static_cast<std::uint8_t>(best);
  }
  costs.front() += here.front();
  const float least = *std::ranges::min_element(costs);
  for (float& cost : costs) cost -= least;
  costs_ = std::move(costs);
  from_.push_back(std::move(from));
}

PathStep NotePath::step(std::size_t state, bool begins_note) const {
  if (state == 0) return {};
  return {settings_.lowest_midi + static_cast<int>(state) - 1, begins_note};
}

/// Goes back from every state at once: where all ways have met, what lies before is the same for all.
std::vector<PathStep> NotePath::certain(bool at_end) {
  if (from_.empty()) return {};
  std::vector<std::size_t> ways;
  if (at_end)
    ways = {best_state()};
  else
    for (std::size_t state = 0; state < states_; ++state) ways.push_back(state);
  std::size_t known = at_end ? from_.size() : 0;
  std::vector<PathStep> back;
  for (std::size_t i = from_.size(); i-- > 0;) {
    const bool met = std::ranges::all_of(ways, [&](std::size_t way) { return way == ways.front(); });
    if (met) {
      known = std::max(known, i + 1);
      ways.resize(1);
    }
    if (ways.size() == 1) back.push_back(step(ways.front(), from_[i][ways.front()].begins_note));
    for (std::size_t& way : ways) way = from_[i][way].state;
  }
  // The last moment stays, as the next one may still begin a note in it.
  std::ranges::reverse(back);
  back.resize(std::min(back.size(), known));
  from_.erase(from_.begin(), from_.begin() + static_cast<std::ptrdiff_t>(back.size()));
  return back;
}

}  // namespace insideline::io
