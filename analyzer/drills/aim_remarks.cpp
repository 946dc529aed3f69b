#include "analyzer/drills/aim_remarks.hpp"

#include "analyzer/drills/aimed_figures.hpp"
#include "analyzer/drills/guide_tone_line.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cstdlib>
#include <map>
#include <optional>

namespace insideline {
namespace {

std::optional<std::string> guide_reason(const Chord& chord, int voices) {
  const GuidePair pair = guide_pair(chord);
  if (!pair.has_third && !pair.has_seventh)
    return voices == 1 ? "has neither third nor seventh; its fifth or root is played"
                       : "has neither third nor seventh; fifth and root are played";
  if (!pair.has_third)
    return "has no third; " + std::string(voices == 1 ? "its seventh is played" : "its fifth takes that voice");
  if (!pair.has_seventh)
    return "has no seventh; " + std::string(voices == 1 ? "its third is played" : "its root takes that voice");
  if (pair.third.number != 3) return "has no third; the fourth stands for it";
  if (pair.seventh.number != 7) return "has no seventh; the sixth stands for it";
  return std::nullopt;
}

std::optional<std::string> enclosing_reason(const Chord& chord) {
  const auto third = third_of(chord);
  if (!third) return "has no third to enclose; the line moves to its nearest tone";
  if (third->number != 3) return "has no third; the fourth that stands for it is enclosed";
  return std::nullopt;
}

std::optional<std::string> reason_for(const Chord& chord, const DrillSettings& settings) {
  switch (settings.kind) {
    case DrillKind::guide_tones: return guide_reason(chord, settings.voices);
    case DrillKind::enclosures: return enclosing_reason(chord);
    case DrillKind::nearest_tones:
    case DrillKind::common_tones:
    case DrillKind::arpeggios:
    case DrillKind::cells:
    case DrillKind::descents: return std::nullopt;
  }
  return std::nullopt;
}

/// Bars in which no chord sounds for a while.
std::set<int> bars_without_chord(const Drill& drill) {
  const std::vector<Bar>& all = drill.solo.bars;
  std::vector<Beats> covered(all.size());
  for (const SoundingChord& sounding : drill.harmony.chords) {
    const Beats chord_end = sounding.onset + sounding.duration;
    for (std::size_t i = bar_index_at(drill.solo, sounding.onset); i < all.size() && all[i].onset < chord_end; ++i)
      covered[i] += std::min(chord_end, all[i].onset + all[i].length) - std::max(sounding.onset, all[i].onset);
  }
  std::set<int> bars;
  for (std::size_t i = 0; i < all.size(); ++i)
    if (covered[i] < all[i].length) bars.insert(all[i].number);
  return bars;
}

}  // namespace

std::string bars_listed(const std::set<int>& bars) {
  std::string text;
  for (const int bar : bars) text += (text.empty() ? "" : ", ") + std::to_string(bar);
  return (bars.size() == 1 ? "bar " : "bars ") + text;
}

std::set<int> far_guide_tones(const Drill& drill, int voices) {
  std::set<int> bars;
  const auto& notes = drill.solo.notes;
  const auto count = static_cast<std::size_t>(voices);
  std::vector<int> before;
  std::optional<std::size_t> chord_before;
  for (std::size_t i = 0; i + count <= notes.size(); i += count) {
    std::vector<int> here;
    for (std::size_t voice = 0; voice < count; ++voice) here.push_back(midi_number(notes[i + voice].pitch));
    const auto chord = chord_index_at(drill.harmony, notes[i].onset);
    const bool connected =
        chord && chord_before && !before.empty() && drill.harmony.chords[*chord].onset <= end_of(notes[i - 1]);
    int motion = 0;
    for (std::size_t voice = 0; voice < count && connected; ++voice) motion += std::abs(here[voice] - before[voice]);
    if (connected && motion > least_guide_motion(before, drill.harmony.chords[*chord].chord))
      bars.insert(drill.solo.bars[bar_index_at(drill.solo, notes[i].onset)].number);
    before = std::move(here);
    chord_before = chord;
  }
  return bars;
}

std::vector<std::string> aim_remarks(const Drill& drill, const DrillSettings& settings) {
  std::map<std::string, std::set<int>> by_reason;  // "C7sus4 has no third; ..."
  for (const SoundingChord& sounding : drill.harmony.chords)
    if (const auto reason = reason_for(sounding.chord, settings))
      by_reason[fmt::format("{}\n{}", sounding.chord.symbol, *reason)].insert(sounding.bar);
  std::vector<std::string> remarks;
  for (const auto& [words, bars] : by_reason) {
    const std::size_t end_of_symbol = words.find('\n');
    remarks.push_back(
        fmt::format("{} ({}) {}.", words.substr(0, end_of_symbol), bars_listed(bars), words.substr(end_of_symbol + 1)));
  }
  const bool has_aim = settings.kind == DrillKind::guide_tones || settings.kind == DrillKind::enclosures ||
                       settings.kind == DrillKind::descents;
  if (!has_aim) return remarks;
  if (const auto bars = bars_without_chord(drill); !bars.empty())
    remarks.push_back(fmt::format("N.C. ({}): nothing is played there, and nothing leads into it.", bars_listed(bars)));
  if (settings.kind != DrillKind::guide_tones) return remarks;
  if (const auto bars = far_guide_tones(drill, settings.voices); !bars.empty())
    remarks.push_back(
        fmt::format("The range ends in {}; the line moves further there than it need.", bars_listed(bars)));
  return remarks;
}

}  // namespace insideline
