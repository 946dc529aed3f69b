#include "analyzer/thread.hpp"

#include "analyzer/measures/voice_leading.hpp"

#include <algorithm>
#include <array>
#include <cstdint>
#include <cstdlib>
#include <limits>
#include <span>
#include <utility>

namespace insideline {
namespace {

/// A grid fine enough for every written rhythm: halves to 64ths, triplets, quintuplets, septuplets.
/// Times off it are rounded down, which keeps their order.
using Ticks = std::int64_t;
constexpr Ticks ticks_per_quarter = 20160;

constexpr std::size_t most_turns = 24;  ///< for the level by chance; a mean needs no more

Ticks ticks(const Beats& time) {
  Ticks result = 0;
  const bool is_on_grid = ticks_per_quarter % time.denominator() == 0;
  if (is_on_grid && !__builtin_mul_overflow(time.numerator(), ticks_per_quarter / time.denominator(), &result))
    return result;
  static const Beats tick(1, ticks_per_quarter);
  return whole_units(time, tick);
}

struct TimedNote {
  Ticks onset = 0;
  Ticks end = 0;
  int midi = 0;
  int pitch_class = 0;
  std::size_t note = 0;
};

struct TimedChord {
  Ticks onset = 0;
  Ticks end = 0;
  PitchClassSet tones = 0;
};

/// One way on: a tone under one chord, with the least motion that leads to it.
struct Stop {
  int midi = 0;
  std::size_t note = 0;
  int motion = 0;
  std::size_t from = 0;  ///< index into the stops of the chord before
};

/// Only chords with a tone at hand are on it.
struct Path {
  std::vector<std::vector<Stop>> stops;  ///< one list a chord
  std::vector<PitchClassSet> chords;     ///< their tones
};

std::vector<TimedNote> timed_notes(const HeardLine& line, const Solo& solo) {
  std::vector<TimedNote> notes;
  notes.reserve(line.notes.size());
  for (const HeardNote& heard : line.notes) {
    const Note& note = solo.notes[heard.note];
    notes.push_back({.onset = ticks(note.onset),
                     .end = ticks(end_of(note)),
                     .midi = heard.midi,
                     .pitch_class = heard.pitch_class,
                     .note = heard.note});
  }
  return notes;
}

/// Different pitches that sound under `chord` and are tones of it, put into `room`. `first` moves along with the
/// chords.
std::span<Stop> collect_stops(std::vector<Stop>& room, const TimedChord& chord, std::span<const TimedNote> notes,
                              std::size_t& first) {
  constexpr unsigned pitches = 256;  // no two notes of a line are so far apart
  constexpr unsigned bits = 64;
  std::array<std::uint64_t, pitches / bits> heard{};
  while (first < notes.size() && notes[first].end <= chord.onset) ++first;
  std::size_t end = first;
  while (end < notes.size() && notes[end].onset < chord.end) ++end;
  if (room.size() < end - first) room.resize(end - first);
  std::size_t count = 0;
  for (const TimedNote& note : notes.subspan(first, end - first)) {  // a tone or none: no processor can foresee it
    const unsigned pitch = static_cast<unsigned>(note.midi) % pitches;
    std::uint64_t& among = heard[pitch / bits];
    const std::uint64_t bit = std::uint64_t{contains(chord.tones, note.pitch_class)} << (pitch % bits);
    room[count] = {.midi = note.midi, .note = note.note, .motion = 0, .from = 0};
    count += (bit & ~among) != 0 ? 1 : 0;
    among |= bit;
  }
  return std::span(room).first(count);
}

/// Joins `stop` to the stop before from which it is reached with the least motion. Which one that is no processor can
/// foresee: nothing here jumps.
void join(Stop& stop, std::span<const Stop> before) {
  int least = std::numeric_limits<int>::max();
  std::size_t best = 0;
  for (std::size_t from = 0; from < before.size(); ++from) {
    const int motion = before[from].motion + std::abs(stop.midi - before[from].midi);
    best = motion < least ? from : best;
    least = std::min(least, motion);
  }
  stop.motion = least;
  stop.from = best;
}

/// The path of least motion over `chords`; those without a tone are left out.
Path least_path(std::span<const TimedChord> chords, std::span<const TimedNote> notes) {
  Path path;
  std::vector<Stop> room;
  std::size_t first = 0;
  for (const TimedChord& chord : chords) {
    const std::span<Stop> stops = collect_stops(room, chord, notes, first);
    if (stops.empty()) continue;
    if (!path.stops.empty())
      for (Stop& stop : stops) join(stop, path.stops.back());
    path.stops.emplace_back(stops.begin(), stops.end());
    path.chords.push_back(chord.tones);
  }
  return path;
}

int motion_of(const Path& path) {
  return path.stops.empty() ? 0 : std::ranges::min_element(path.stops.back(), {}, &Stop::motion)->motion;
}

std::vector<std::size_t> notes_of(const Path& path) {
  std::vector<std::size_t> notes;
  if (path.stops.empty()) return notes;
  const auto last = std::ranges::min_element(path.stops.back(), {}, &Stop::motion);
  auto at = static_cast<std::size_t>(last - path.stops.back().begin());
  for (std::size_t i = path.stops.size(); i-- > 0;) {
    notes.push_back(path.stops[i][at].note);
    at = path.stops[i][at].from;
  }
  std::ranges::reverse(notes);
  return notes;
}

/// The least motion through the tones of these chords, octaves free.
int least_possible(std::span<const PitchClassSet> chords) {
  constexpr int unreachable = std::numeric_limits<int>::max() / 2;
  std::array<int, pitch_classes> motion{};
  for (std::size_t i = 0; i < chords.size(); ++i) {
    std::array<int, pitch_classes> next{};
    next.fill(unreachable);
    for (int to = 0; to < pitch_classes; ++to) {
      if (!contains(chords[i], to)) continue;
      auto& best = next[static_cast<std::size_t>(to)];
      if (i == 0) best = 0;
      for (int from = 0; i > 0 && from < pitch_classes; ++from)
        if (contains(chords[i - 1], from))
          best = std::min(best, motion[static_cast<std::size_t>(from)] + std::abs(shortest_way(from, to)));
    }
    motion = next;
  }
  return *std::ranges::min_element(motion);
}

/// The bars of one chorus: indices into Solo::bars, the last one excluded.
struct BarRange {
  std::size_t first = 0;
  std::size_t last = 0;
};

/// The ring in ticks: the spans of each bar, N.C. without tones. A span ends where the next begins.
struct TimedRing {
  std::vector<std::vector<TimedChord>> bars;
  std::vector<Ticks> bar_onsets;  ///< parallel to Solo::bars, and the end of the last one
};

TimedRing timed_ring(const ChangesRing& ring, const Solo& solo) {
  constexpr Ticks to_the_bar_line = std::numeric_limits<Ticks>::max() / 2;
  TimedRing timed;
  for (const Bar& bar : solo.bars) timed.bar_onsets.push_back(ticks(bar.onset));
  timed.bar_onsets.push_back(ticks(end_of(solo)));
  for (const auto& spans : ring.bars) {
    auto& bar = timed.bars.emplace_back();
    for (const BarSpan& span : spans) {
      const Ticks onset = ticks(span.offset);
      if (!bar.empty()) bar.back().end = onset;
      bar.push_back({.onset = onset, .end = to_the_bar_line, .tones = span.tones.value_or(0)});
    }
  }
  return timed;
}

/// The chords under `bars`, turned by `turn`; the same chord over a bar line is one.
void lay_under(std::vector<TimedChord>& chords, const ChangesRing& ring, const TimedRing& timed, const BarRange& bars,
               std::size_t turn) {
  chords.clear();
  for (std::size_t b = bars.first; b < bars.last; ++b) {
    const auto under = bar_under(ring, b, turn);
    if (!under) continue;
    const Ticks bar_line = timed.bar_onsets[b];
    for (const TimedChord& span : timed.bars[*under]) {
      const Ticks onset = bar_line + span.onset;
      const Ticks end = std::min(bar_line + span.end, timed.bar_onsets[b + 1]);
      if (onset >= end) continue;
      if (!chords.empty() && chords.back().tones == span.tones && chords.back().end == onset)
        chords.back().end = end;
      else
        chords.push_back({.onset = onset, .end = end, .tones = span.tones});
    }
  }
}

/// Semitones a step of the least path over `chords`; none for a path without a step.
std::optional<double> motion_a_step(std::span<const TimedChord> chords, std::span<const TimedNote> notes) {
  std::vector<Stop> room;
  std::vector<Stop> room_before;
  std::span<Stop> before;
  std::size_t first = 0;
  int steps = -1;
  for (const TimedChord& chord : chords) {
    const std::span<Stop> stops = collect_stops(room, chord, notes, first);
    if (stops.empty()) continue;
    if (steps >= 0)
      for (Stop& stop : stops) join(stop, before);
    std::swap(room, room_before);  // what `before` points to moves along
    before = stops;
    ++steps;
  }
  if (steps < 1) return std::nullopt;
  return static_cast<double>(std::ranges::min_element(before, {}, &Stop::motion)->motion) / steps;
}

std::optional<double> motion_by_chance(const ChangesRing& ring, const TimedRing& timed, const BarRange& bars,
                                       std::span<const TimedNote> notes, std::size_t real_steps) {
  const std::size_t turns = ring.period - 1;
  const std::size_t tried = std::min(turns, most_turns);
  double sum = 0.0;
  int counted = 0;
  std::vector<TimedChord> chords;
  for (std::size_t i = 0; i < tried; ++i) {
    lay_under(chords, ring, timed, bars, 1 + i * turns / tried);
    const auto motion = motion_a_step(chords, notes);
    if (!motion) continue;
    sum += *motion;
    ++counted;
  }
  if (counted == 0) return std::nullopt;
  return sum / counted * static_cast<double>(real_steps);
}

}  // namespace

std::vector<Thread> find_threads(const HeardLine& line, const Solo& solo, const Harmony& harmony,
                                 const ChangesRing& ring) {
  const std::vector<TimedNote> notes = timed_notes(line, solo);
  const TimedRing timed = timed_ring(ring, solo);
  std::vector<Thread> threads;
  for (std::size_t first = 0; first < line.stretches.size();) {
    const int chorus = harmony.chords[line.stretches[first].first].chorus;
    std::size_t last = first;
    std::vector<TimedChord> chords;
    for (; last < line.stretches.size() && harmony.chords[line.stretches[last].first].chorus == chorus; ++last) {
      const Stretch& stretch = line.stretches[last];
      chords.push_back({.onset = ticks(stretch.onset), .end = ticks(stretch.end), .tones = stretch.tones});
    }
    const Path path = least_path(chords, notes);
    Thread thread{.chorus = chorus,
                  .notes = notes_of(path),
                  .chords = static_cast<int>(chords.size()),
                  .semitones = motion_of(path),
                  .least_possible = 0,
                  .by_chance = std::nullopt};
    if (path.chords.size() > 1) {
      thread.least_possible = least_possible(path.chords);
      const BarRange bars{
          .first = bar_index_at(solo, line.stretches[first].onset),
          .last = last < line.stretches.size() ? bar_index_at(solo, line.stretches[last].onset) : solo.bars.size()};
      thread.by_chance = motion_by_chance(ring, timed, bars, notes, path.chords.size() - 1);
    }
    threads.push_back(std::move(thread));
    first = last;
  }
  return threads;
}

}  // namespace insideline
