#include "io/midi/midi_changes.hpp"

#include "analyzer/harmony/chord_from_notes.hpp"
#include "analyzer/harmony/chord_kinds.hpp"
#include "analyzer/harmony/chord_symbol.hpp"
#include "analyzer/spelling.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>
#include <utility>

namespace insideline::io {
namespace {

constexpr double mostly = 0.8;           // of a track's texts read as chords where they are the changes
constexpr double rolled_seconds = 0.08;  // a chord may be rolled a little
constexpr std::size_t fewest_notes = 3;  // of a block chord

/// Chords change on eighths: a played one is moved to the nearest.
Beats chord_place(std::uint32_t ticks, std::span<const BeatCell> cells, const TempoClock& clock) {
  const double units = units_at(cells, clock.seconds_at(ticks));
  constexpr std::int64_t eighth = units_per_quarter / 2;
  return beats_of(std::llround(units / eighth) * eighth);
}

void add(FoundChanges& found, const Beats& onset, std::optional<Chord> chord) {
  if (!found.places.empty() && found.places.back().onset >= onset) {
    found.places.back().chord = std::move(chord);
    return;
  }
  found.places.push_back({std::move(chord), onset});
}

struct TextGroup {
  std::size_t readable_chords = 0;
  std::vector<const SmfText*> texts;
  bool more_than_letters = false;
};

/// Markers first, then texts, lyrics, cues; track by track.
std::vector<TextGroup> text_groups(const MidiSong& song) {
  constexpr std::array<std::uint8_t, 4> kinds = {6, 1, 5, 7};
  std::map<std::pair<std::ptrdiff_t, int>, TextGroup> groups;
  for (const SmfText& text : song.texts) {
    const auto kind = std::ranges::find(kinds, text.kind);
    const std::string symbol = readable(text.bytes);
    if (kind == kinds.end() || symbol.empty()) continue;
    TextGroup& group = groups[{kind - kinds.begin(), text.track}];
    group.texts.push_back(&text);
    if (!parse_chord_symbol(symbol)) continue;
    ++group.readable_chords;
    group.more_than_letters = group.more_than_letters || symbol.size() > 1;
  }
  std::vector<TextGroup> in_order;
  for (auto& [key, group] : groups) in_order.push_back(std::move(group));
  return in_order;
}

/// Texts that read as chords, but not often enough to be the changes.
void tell_what_is_too_little(const std::vector<TextGroup>& groups, FoundChanges& found) {
  for (const TextGroup& group : groups) {
    if (!group.more_than_letters || 2 * group.readable_chords < group.texts.size()) continue;
    const auto fails = [](const SmfText* text) { return !parse_chord_symbol(readable(text->bytes)).has_value(); };
    const auto first = std::ranges::find_if(group.texts, fails);
    found.warnings.push_back(fmt::format(
        "{} of {} texts read as chord symbols, which is too little for them to be the changes; the first that does not "
        "is '{}'",
        group.readable_chords, group.texts.size(), readable((*first)->bytes)));
    return;
  }
}

/// The notes of one chord, from below.
struct Cluster {
  std::uint32_t onset_ticks = 0;
  std::set<std::uint8_t> pitches;
};

std::vector<Cluster> clusters_of(const std::vector<const MidiVoice*>& voices, const TempoClock& clock) {
  std::vector<MidiNote> notes;
  for (const MidiVoice* voice : voices) notes.insert(notes.end(), voice->notes.begin(), voice->notes.end());
  std::ranges::stable_sort(notes, {}, &MidiNote::onset_ticks);
  std::vector<Cluster> clusters;
  for (const MidiNote& note : notes) {
    const bool joins =
        !clusters.empty() &&
        clock.seconds_at(note.onset_ticks) - clock.seconds_at(clusters.back().onset_ticks) < rolled_seconds;
    if (!joins) clusters.push_back({note.onset_ticks, {}});
    clusters.back().pitches.insert(note.midi);
  }
  return clusters;
}

/// A kind of chord on the lowest note whose tones are exactly those that sound.
std::optional<Chord> chord_on_bass(const NoteName& bass, const std::set<int>& sounding) {
  for (const ChordKind& kind : chord_kinds()) {
    std::set<int> tones;
    for (const Degree& degree : kind.tones)
      tones.insert((pitch_class(bass) + pitch_class_above_root(degree)) % semitones_in_octave);
    if (tones != sounding) continue;
    const auto reading = parse_chord_symbol(to_string(bass) + std::string(kind.suffix));
    if (reading) return *reading;
  }
  return std::nullopt;
}

/// The chord as it stands on its lowest note, else in an inversion, else without that note above a bass.
std::optional<Chord> chord_of(const Cluster& cluster, const Key& key) {
  std::vector<NoteName> names;
  std::set<int> sounding;
  for (const std::uint8_t midi : cluster.pitches) {
    names.push_back(usual_name(midi % semitones_in_octave, key));
    sounding.insert(midi % semitones_in_octave);
  }
  if (sounding.size() < fewest_notes) return std::nullopt;
  const NoteName bass = names.front();
  if (auto chord = chord_on_bass(bass, sounding)) return chord;
  auto chord = chord_spelled_by(names);
  if (!chord) chord = chord_spelled_by(std::span(names).subspan(1));
  if (!chord) return std::nullopt;
  const auto slashed = parse_chord_symbol(canonical_symbol(*chord) + "/" + to_string(bass));
  return slashed ? *slashed : chord;
}

Key key_of(const MidiSong& song, std::uint32_t ticks) {
  Key key;
  for (const KeyMark& mark : song.keys)
    if (mark.ticks <= ticks || &mark == &song.keys.front()) key = mark.key;
  return key;
}

}  // namespace

FoundChanges changes_in_texts(const MidiSong& song, std::span<const BeatCell> cells, const TempoClock& clock) {
  FoundChanges found;
  const auto are_changes = [](const TextGroup& group) {
    return group.more_than_letters &&
           static_cast<double>(group.readable_chords) >= mostly * static_cast<double>(group.texts.size());
  };
  const std::vector<TextGroup> groups = text_groups(song);
  const auto group = std::ranges::find_if(groups, are_changes);
  if (group == groups.end()) {
    tell_what_is_too_little(groups, found);
    return found;
  }
  std::size_t unread = 0;
  std::string first_unread;
  for (const SmfText* text : group->texts) {
    const auto reading = parse_chord_symbol(readable(text->bytes));
    if (reading) {
      add(found, chord_place(text->ticks, cells, clock), *reading);
      continue;
    }
    if (unread++ == 0) first_unread = readable(text->bytes);
  }
  if (unread > 0)
    found.warnings.push_back(fmt::format("{} of {} texts among the chord symbols could not be read, the first is '{}'",
                                         unread, group->texts.size(), first_unread));
  return found;
}

FoundChanges changes_in_chords(const std::vector<const MidiVoice*>& voices, const MidiSong& song,
                               std::span<const BeatCell> cells, const TempoClock& clock) {
  FoundChanges found;
  std::size_t unnamed = 0;
  std::size_t named = 0;
  for (const Cluster& cluster : clusters_of(voices, clock)) {
    auto chord = chord_of(cluster, key_of(song, cluster.onset_ticks));
    if (!chord) {
      ++unnamed;
      continue;
    }
    ++named;
    const bool same =
        !found.places.empty() && found.places.back().chord && same_chord(*found.places.back().chord, *chord);
    if (!same) add(found, chord_place(cluster.onset_ticks, cells, clock), std::move(chord));
  }
  found.warnings.push_back(
      fmt::format("the changes were inferred from the notes of the chord track ({} chords); check them", named));
  if (unnamed > 0)
    found.warnings.push_back(fmt::format(
        "{} chords of the chord track have fewer than three notes or no plain name; the one before was kept", unnamed));
  return found;
}

}  // namespace insideline::io
