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

bool is_guide_tone_of(const HeardNote& note, const Chord& chord) {
  return is_degree(note, chord, third_of(chord)) || is_degree(note, chord, seventh_of(chord));
}

/// Only a minor third goes up, to a major seventh. A seventh that goes up is on its way to something else: Bb over C7
/// that rises to B is no seventh led home to G7.
bool leads_home(const HeardNote& from, const HeardNote& to, const Chord& old, const Chord& next) {
  constexpr Degree minor_third{3, -1};
  constexpr Degree major_seventh{7, 0};
  const int move = to.midi - from.midi;
  if (move > half_step || move < -whole_step) return false;
  const auto third = third_of(old);
  const auto seventh = seventh_of(next);
  if (is_degree(from, old, third) && is_degree(to, next, seventh))
    return move <= 0 || (third == minor_third && seventh == major_seventh);
  return move <= 0 && is_degree(from, old, seventh_of(old)) && is_degree(to, next, third_of(next));
}

/// Looks behind a change for a guide tone that arrives by way of other notes.
class LateSearch {
 public:
  LateSearch(const HeardLine& line, const Solo& solo, const Harmony& harmony, std::span<const NoteLabel> labels,
             std::size_t stretch)
      : line_(line),
        labels_(labels),
        solo_(solo),
        next_(harmony.chords[line.stretches[stretch].first].chord),
        old_(harmony.chords[line.stretches[stretch - 1].last].chord),
        stretch_(stretch) {}

  std::optional<LateResolution> from(const BothEnds& ends) const {
    constexpr std::size_t most_notes = 5;
    constexpr int longest_wait = 2;  // beats
    const auto last_before = static_cast<std::size_t>(ends.from - line_.notes.data());
    const auto first = static_cast<std::size_t>(ends.to - line_.notes.data());
    const Beats beat = felt_beat(solo_.bars[ends.to->bar].meter);
    bool arrived = false;
    for (std::size_t to = first; to < std::min(line_.notes.size(), first + most_notes); ++to) {
      const Beats wait = solo_.notes[line_.notes[to].note].onset - line_.stretches[stretch_].onset;
      if (!goes_on(first, to) || wait > longest_wait * beat || (arrived && wait >= beat)) break;
      if (const auto source = source_of(to, last_before, first)) return resolution(*source, to);
      arrived = arrived || (wait >= Beats(0) && is_tone(line_.notes[to]));
    }
    return std::nullopt;
  }

 private:
  bool is_tone(const HeardNote& note) const { return contains(line_.stretches[stretch_].tones, note.pitch_class); }

  bool goes_on(std::size_t first, std::size_t to) const {
    const HeardNote& note = line_.notes[to];
    return to == first ||
           (!note.after_rest && note.phrase == line_.notes[first].phrase && note.stretch && *note.stretch <= stretch_);
  }

  /// The nearest of the notes before: the last over the old chord, one before it that the figure around the target
  /// begins with, or one that is struck over the new chord and foreign to it.
  std::optional<std::size_t> source_of(std::size_t to, std::size_t last_before, std::size_t first) const {
    if (!is_guide_tone_of(line_.notes[to], next_)) return std::nullopt;
    for (std::size_t from = to; from-- > 0;) {
      const HeardNote& note = line_.notes[from];
      const bool before = from <= last_before;
      const bool foreign = from >= first && !is_tone(note);
      if ((before || foreign) && note.midi != line_.notes[to].midi && leads_home(note, line_.notes[to], old_, next_))
        return from;
      if (before && labels_[note.note].resolves_to != line_.notes[to].note) break;
    }
    return std::nullopt;
  }

  LateResolution resolution(std::size_t from, std::size_t to) const {
    const auto degree = [&](std::size_t i, const Chord& chord, const std::optional<Degree>& third) {
      return is_degree(line_.notes[i], chord, third) ? *third : *seventh_of(chord);
    };
    return {.from_note = line_.notes[from].note,
            .to_note = line_.notes[to].note,
            .from_degree = degree(from, old_, third_of(old_)),
            .to_degree = degree(to, next_, third_of(next_))};
  }

  const HeardLine& line_;
  std::span<const NoteLabel> labels_;
  const Solo& solo_;
  const Chord& next_;
  const Chord& old_;
  std::size_t stretch_;
};

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
  connection.guide_tone = leads_home(*ends.from, *ends.to, from, to);
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
    if (connection.took_nearest && !connection.guide_tone)
      connection.late = LateSearch(line, solo, harmony, labels, i).from({.from = last[i - 1], .to = first[i]});
    connection.from_chord = from;
    connection.to_chord = to;
    connections.push_back(connection);
  }
  return connections;
}

}  // namespace insideline
