#include "analyzer/harmony/chord_from_notes.hpp"

#include "analyzer/harmony/chord_kinds.hpp"
#include "analyzer/harmony/tensions.hpp"

#include <algorithm>
#include <array>
#include <vector>

namespace insideline {
namespace {

enum class Match : std::uint8_t { spelling, sound };

/// Bit n is the pitch class n semitones above the first note.
using Sound = std::uint32_t;
constexpr unsigned octave = 12;

/// The pitch classes of each kind above its root; parallel to chord_kinds().
const std::vector<Sound>& sounds_of_kinds() {
  static const auto sounds = [] {
    std::vector<Sound> all;
    for (const ChordKind& kind : chord_kinds()) {
      Sound& sound = all.emplace_back(0);
      for (const Degree& tone : kind.tones) sound |= Sound{1} << static_cast<unsigned>(pitch_class_above_root(tone));
    }
    return all;
  }();
  return sounds;
}

/// The pitch classes of `members` above `root`, which is one of them.
Sound sound_above(const NoteName& root, const std::vector<NoteName>& members) {
  const auto above = [&](const NoteName& member) {
    return (static_cast<unsigned>(pitch_class(member)) + octave - static_cast<unsigned>(pitch_class(root))) % octave;
  };
  Sound sound = 0;
  for (const NoteName& member : members) sound |= Sound{1} << above(member);
  return sound;
}

bool is_spelled(const ChordKind& kind, const NoteName& root, const std::vector<NoteName>& members) {
  return std::ranges::all_of(kind.tones, [&](const Degree& degree) {
    return std::ranges::find(members, note_at(root, degree)) != members.end();
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
  std::vector<Sound> sounds;
  for (const NoteName& member : members) sounds.push_back(sound_above(member, members));
  const auto kinds = chord_kinds();
  const auto& sounds_of = sounds_of_kinds();
  for (std::size_t k = 0; k < kinds.size(); ++k) {
    const ChordKind& kind = kinds[k];
    if (kind.building != building || kind.tones.size() != members.size()) continue;
    const Sound sound = sounds_of[k];
    for (std::size_t root = 0; root < members.size(); ++root) {
      if ((sound & ~sounds[root]) != 0) continue;
      if (match == Match::spelling && !is_spelled(kind, members[root], members)) continue;
      return make_chord(to_string(members[root]) + std::string(kind.suffix), members[root], kind.tones);
    }
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
