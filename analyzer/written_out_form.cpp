#include "analyzer/written_out_form.hpp"

#include <algorithm>
#include <cstddef>
#include <string>
#include <vector>

namespace insideline {
namespace {

constexpr std::size_t shortest_form = 12;
constexpr std::size_t turn_around = 2;
constexpr std::size_t ending = 2;

/// What sounds in each full bar, and where in it.
std::vector<std::string> chords_by_bar(const Harmony& harmony, const Solo& solo) {
  std::vector<std::string> bars;
  std::size_t chord = 0;
  for (const Bar& bar : solo.bars) {
    if (bar.number < 1) continue;
    const Beats end = bar.onset + bar.length;
    std::string sounding = to_string(bar.length);
    while (chord < harmony.chords.size() && harmony.chords[chord].onset + harmony.chords[chord].duration <= bar.onset)
      ++chord;
    for (std::size_t i = chord; i < harmony.chords.size() && harmony.chords[i].onset < end; ++i)
      sounding += ' ' + harmony.chords[i].chord.symbol + '@' +
                  to_string(std::max(harmony.chords[i].onset - bar.onset, Beats(0)));
    bars.push_back(std::move(sounding));
  }
  return bars;
}

/// `spared` bars at the end of each pass may differ.
bool comes_again_after(const std::vector<std::string>& bars, std::size_t form, std::size_t spared) {
  const std::size_t whole = bars.size() - bars.size() % form;
  for (std::size_t bar = form; bar < whole; ++bar)
    if (bar % form + spared < form && bars[bar] != bars[bar % form]) return false;
  return true;
}

}  // namespace

std::optional<int> written_out_form(const Harmony& harmony, const Solo& solo) {
  if (harmony.chords.empty()) return std::nullopt;
  const std::vector<std::string> bars = chords_by_bar(harmony, solo);
  for (std::size_t form = 1; form < shortest_form && 2 * form <= bars.size(); ++form)
    if (comes_again_after(bars, form, 0)) return std::nullopt;
  for (std::size_t form = shortest_form; 2 * form <= bars.size(); ++form)
    if (bars.size() % form <= ending && comes_again_after(bars, form, turn_around)) return static_cast<int>(form);
  return std::nullopt;
}

}  // namespace insideline
