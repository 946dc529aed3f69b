#include "io/midi/written_line.hpp"

#include "io/midi/page_place.hpp"

#include <algorithm>

namespace insideline::io {
namespace {

constexpr double grid_grace_seconds = 0.1;  // longest grace note in a file on the grid
constexpr double plain_share =
    0.9;  // of the notes of a file on the grid are plain, or in a group of fives and the like
constexpr std::size_t most_grid_graces = 4;  // in a row

/// Off the grid, short, and followed at once.
bool may_be_grace(std::span<const MidiNote> notes, std::size_t index, const TempoClock& clock) {
  if (index + 1 == notes.size()) return false;
  return clock.seconds_at(notes[index + 1].onset_ticks) - clock.seconds_at(notes[index].onset_ticks) <
         grid_grace_seconds;
}

/// Fives, sevens and 32nds come in groups; a swung off-beat that a program put on 3/5 stands alone.
bool is_plain_or_grouped(std::span<const MidiNote> notes, std::size_t index, std::uint32_t ticks_per_quarter) {
  if (is_plain_place(notes[index].onset_ticks, ticks_per_quarter)) return true;
  const auto beside = [&](std::size_t other) {
    const std::uint32_t first = std::min(notes[index].onset_ticks, notes[other].onset_ticks);
    const std::uint32_t second = std::max(notes[index].onset_ticks, notes[other].onset_ticks);
    return 2 * (second - first) < ticks_per_quarter && !is_plain_place(notes[other].onset_ticks, ticks_per_quarter);
  };
  return (index > 0 && beside(index - 1)) || (index + 1 < notes.size() && beside(index + 1));
}

/// The end as it stands, or, where a program shortened the note for playback, the next eighth or triplet, at most
/// `latest`.
Beats written_end(const MidiNote& note, const Beats& onset, const std::optional<Beats>& latest,
                  std::uint32_t ticks_per_quarter) {
  constexpr int usual_parts = 12;  // sixteenths and triplets
  constexpr int shortened_share = 4;
  if (const auto exact = page_place(note.end_ticks, ticks_per_quarter)) return *exact;
  const Beats end(note.end_ticks, ticks_per_quarter);
  if (latest && (*latest - end) * Beats(shortened_share) < *latest - onset) return *latest;
  for (const Beats& step : {Beats(1, 2), Beats(1, 3), Beats(1, 4), Beats(1, usual_parts)}) {
    const Beats rounded = step * Beats(whole_units(end, step) + 1);
    const bool near_enough = (rounded - end) * Beats(2) <= rounded - onset;
    if (near_enough && (!latest || rounded <= *latest)) return rounded;
  }
  return latest.value_or(end);
}

}  // namespace

std::optional<std::vector<LineNote>> line_on_grid(std::span<const MidiNote> notes, const TempoClock& clock,
                                                  std::uint32_t ticks_per_quarter) {
  std::vector<LineNote> line(notes.size());
  std::size_t plain = 0;
  std::size_t main_notes = 0;
  std::size_t graces = 0;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    const auto place = page_place(notes[i].onset_ticks, ticks_per_quarter);
    line[i].grace = !place;
    if (!place) {
      ++graces;
      if (graces > most_grid_graces || !may_be_grace(notes, i, clock)) return std::nullopt;
      continue;
    }
    graces = 0;
    line[i].onset = *place;
    ++main_notes;
    if (is_plain_or_grouped(notes, i, ticks_per_quarter)) ++plain;
  }
  if (static_cast<double>(plain) < plain_share * static_cast<double>(main_notes)) return std::nullopt;
  std::optional<Beats> next;
  for (std::size_t i = notes.size(); i-- > 0;) {
    if (line[i].grace) {
      line[i].onset = next.value_or(Beats());
      continue;
    }
    // The note before a grace note gave it its time.
    const bool before_grace =
        i + 1 < notes.size() && line[i + 1].grace && notes[i].end_ticks == notes[i + 1].onset_ticks;
    const Beats end = before_grace ? *next : written_end(notes[i], line[i].onset, next, ticks_per_quarter);
    line[i].duration = end - line[i].onset;
    next = line[i].onset;
  }
  return line;
}

bool swings_on_grid(std::span<const LineNote> line) {
  constexpr std::size_t fewest_off_beats = 8;
  std::size_t thirds = 0;
  std::size_t quarters = 0;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Beats within = remainder_within(line[i].onset, 1);
    if (line[i].grace || within == Beats(0)) continue;
    const bool after_beat = i == 0 || line[i].onset - line[i - 1].onset >= within;  // nothing but the beat before it
    if (!after_beat) continue;
    if (within == Beats(1, 2)) return false;
    if (within == Beats(2, 3)) ++thirds;
    if (within == Beats(3, 4)) ++quarters;
  }
  return thirds + quarters >= fewest_off_beats && (thirds == 0 || quarters == 0);
}

std::vector<TimedNote> timed(std::span<const MidiNote> notes, const TempoClock& clock) {
  std::vector<TimedNote> seconds;
  seconds.reserve(notes.size());
  for (const MidiNote& note : notes)
    seconds.push_back({clock.seconds_at(note.onset_ticks), clock.seconds_at(note.end_ticks)});
  return seconds;
}

std::vector<LineNote> line_played(const Quantized& quantized) {
  std::vector<LineNote> line;
  line.reserve(quantized.notes.size());
  for (const WrittenRhythm& note : quantized.notes)
    line.push_back({beats_of(note.onset), beats_of(note.duration), note.grace});
  return line;
}

}  // namespace insideline::io
