#include "io/midi/midi_line.hpp"

#include <algorithm>

namespace insideline::io {
namespace {

constexpr double together_seconds = 0.025;  // struck as one (common practice, no source)
constexpr double most_of_it = 0.8;  // a lower note that sounds under another for so much of its length is no line

bool struck_together(const MidiNote& first, const MidiNote& second, const TempoClock& clock) {
  if (second.onset_ticks == first.onset_ticks) return true;
  if (second.onset_ticks >= first.end_ticks) return false;
  return clock.seconds_at(second.onset_ticks) - clock.seconds_at(first.onset_ticks) < together_seconds;
}

bool lies_under(const MidiNote& upper, const MidiNote& note) {
  if (note.midi >= upper.midi || note.onset_ticks >= upper.end_ticks) return false;
  const double shared = static_cast<double>(std::min(upper.end_ticks, note.end_ticks) - note.onset_ticks);
  return shared > most_of_it * (note.end_ticks - note.onset_ticks);
}

}  // namespace

MidiLine line_of(std::span<const MidiNote> notes, const TempoClock& clock) {
  MidiLine line;
  line.notes.reserve(notes.size());
  bool in_chord = false;
  for (const MidiNote& note : notes) {
    if (line.notes.empty()) {
      line.notes.push_back(note);
      continue;
    }
    MidiNote& last = line.notes.back();
    if (struck_together(last, note, clock)) {
      if (!in_chord) ++line.chords;
      in_chord = true;
      if (note.midi > last.midi) last = {last.onset_ticks, std::max(note.end_ticks, last.onset_ticks + 1), note.midi};
      continue;
    }
    in_chord = false;
    if (lies_under(last, note)) {
      ++line.under;
      continue;
    }
    if (last.end_ticks > note.onset_ticks) {
      last.end_ticks = note.onset_ticks;
      ++line.trimmed;
    }
    line.notes.push_back(note);
  }
  return line;
}

double chordal_share(const MidiLine& line, std::size_t note_count) {
  if (note_count == 0) return 1.0;
  return static_cast<double>(note_count - line.notes.size()) / static_cast<double>(note_count);
}

}  // namespace insideline::io
