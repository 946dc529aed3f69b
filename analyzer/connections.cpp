#include "analyzer/connections.hpp"

#include "analyzer/metre.hpp"

#include <algorithm>
#include <cstdlib>

namespace insideline {
namespace {

constexpr int half_step = 1;
constexpr int whole_step = 2;
constexpr int major_third = 4;

ConnectionKind kind_of(int semitones) {
  const int distance = std::abs(semitones);
  if (distance == 0) return ConnectionKind::common_tone;
  if (distance == half_step) return ConnectionKind::half_step;
  if (distance == whole_step) return ConnectionKind::whole_step;
  return distance <= major_third ? ConnectionKind::third : ConnectionKind::leap;
}

bool is_degree(const HeardNote& note, const Chord& chord, const std::optional<Degree>& degree) {
  return degree && note.pitch_class == pitch_class_at(chord, *degree);
}

/// The notes at both ends of the change, where the line has them.
struct BothEnds {
  const HeardNote* from = nullptr;
  const HeardNote* to = nullptr;
};

bool resolves_guide_tone(const BothEnds& ends, const Chord& from, const Chord& to) {
  if (std::abs(ends.to->midi - ends.from->midi) > whole_step) return false;
  const bool seventh_to_third = is_degree(*ends.from, from, seventh_of(from)) && is_degree(*ends.to, to, third_of(to));
  const bool third_to_seventh = is_degree(*ends.from, from, third_of(from)) && is_degree(*ends.to, to, seventh_of(to));
  return seventh_to_third || third_to_seventh;
}

bool took_nearest(const BothEnds& ends, const NearestTones& nearest) {
  const int taken = ends.to->midi - ends.from->midi;
  if (taken == 0) return nearest.common;
  if (!nearest.up || !nearest.down) return false;
  const int up = midi_number(*nearest.up) - ends.from->midi;
  const int down = ends.from->midi - midi_number(*nearest.down);
  if (std::abs(taken) != std::min(up, down)) return false;
  return taken > 0 ? taken == up : -taken == down;
}

Connection described(const BothEnds& ends, const Solo& solo, const Chord& from, const Chord& to,
                     std::span<const NoteLabel> labels, const Settings& settings) {
  Connection connection;
  NearestTones nearest;
  if (ends.from != nullptr) {
    connection.from_note = ends.from->note;
    connection.from_degree = labels[ends.from->note].degree;
    nearest = nearest_tones(ends.from->midi, to);
    connection.nearest_up = nearest.up;
    connection.nearest_down = nearest.down;
  }
  if (ends.to != nullptr) {
    connection.to_note = ends.to->note;
    connection.to_degree = labels[ends.to->note].degree;
  }
  if (ends.from == nullptr || ends.to == nullptr) return connection;
  const Beats rest = solo.notes[ends.to->note].onset - end_of(solo.notes[ends.from->note]);
  if (rest >= settings.phrase_gap * felt_beat(solo.bars[ends.to->bar].meter)) return connection;
  connection.semitones = ends.to->midi - ends.from->midi;
  connection.kind = kind_of(*connection.semitones);
  connection.guide_tone = resolves_guide_tone(ends, from, to);
  connection.took_nearest = took_nearest(ends, nearest);
  return connection;
}

}  // namespace

NearestTones nearest_tones(int midi, const Chord& chord) {
  NearestTones nearest;
  if (chord.tones.empty()) return nearest;
  int up = semitones_in_octave + 1;
  int down = semitones_in_octave + 1;
  Degree tone_up;
  Degree tone_down;
  for (const Degree& tone : chord.tones) {
    const int above = pitch_class_of(pitch_class_at(chord, tone) - midi);
    nearest.common = nearest.common || above == 0;
    const int to_up = above == 0 ? semitones_in_octave : above;
    const int to_down = semitones_in_octave - above;
    if (to_up < up) tone_up = tone;
    if (to_down < down) tone_down = tone;
    up = std::min(up, to_up);
    down = std::min(down, to_down);
  }
  nearest.up = spelled_pitch(midi + up, note_at(chord.root, tone_up));
  nearest.down = spelled_pitch(midi - down, note_at(chord.root, tone_down));
  return nearest;
}

std::vector<Connection> find_connections(const HeardLine& line, const Solo& solo, const Harmony& harmony,
                                         std::span<const NoteLabel> labels, const Settings& settings) {
  std::vector<const HeardNote*> first(line.stretches.size(), nullptr);
  std::vector<const HeardNote*> last(line.stretches.size(), nullptr);
  for (const HeardNote& note : line.notes) {
    if (!note.stretch) continue;
    if (first[*note.stretch] == nullptr) first[*note.stretch] = &note;
    last[*note.stretch] = &note;
  }
  std::vector<Connection> connections;
  for (std::size_t i = 1; i < line.stretches.size(); ++i) {
    if (!line.stretches[i].follows) continue;
    const std::size_t from = line.stretches[i - 1].last;
    const std::size_t to = line.stretches[i].first;
    Connection connection = described({.from = last[i - 1], .to = first[i]}, solo, harmony.chords[from].chord,
                                      harmony.chords[to].chord, labels, settings);
    connection.from_chord = from;
    connection.to_chord = to;
    connections.push_back(connection);
  }
  return connections;
}

}  // namespace insideline
