#include "analyzer/harmony/chord_from_notes.hpp"

#include "analyzer/harmony/chord_kinds.hpp"
#include "analyzer/harmony/tensions.hpp"

#include <algorithm>
#include <array>
#include <vector>

namespace insideline {
namespace {

enum class Match : std::uint8_t { spelling, sound };

bool matches(const ChordKind& kind, const NoteName& root, const std::vector<NoteName>& members, Match match) {
  if (kind.tones.size() != members.size()) return false;
  return std::ranges::all_of(kind.tones, [&](const Degree& degree) {
    const NoteName tone = note_at(root, degree);
    return std::ranges::any_of(members, [&](const NoteName& member) {
      return match == Match::spelling ? member == tone : pitch_class(member) == pitch_class(tone);
    });
  });
}

std::vector<NoteName> without_repeats(std::span<const NoteName> notes) {
  std::vector<NoteName> members;
  for (const NoteName& name : notes) {
    const auto same = [&](const NoteName& member) { return pitch_class(member) == pitch_class(name); };
    if (std::ranges::none_of(members, same)) members.push_back(name);
  }
  return members;
}

std::optional<Chord> named(const std::vector<NoteName>& members, Building building, Match match) {
  for (const ChordKind& kind : chord_kinds()) {
    if (kind.building != building) continue;
    const auto root =
        std::ranges::find_if(members, [&](const NoteName& member) { return matches(kind, member, members, match); });
    if (root == members.end()) continue;
    return make_chord(to_string(*root) + std::string(kind.suffix), *root, kind.tones);
  }
  return std::nullopt;
}

}  // namespace

std::optional<Chord> chord_spelled_by(std::span<const NoteName> notes) {
  const auto members = without_repeats(notes);
  for (const Match match : {Match::spelling, Match::sound})
    for (const Building building : {Building::thirds, Building::other})
      if (auto chord = named(members, building, match)) return chord;
  return std::nullopt;
}

}  // namespace insideline
