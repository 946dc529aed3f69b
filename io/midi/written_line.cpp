#include "io/midi/written_line.hpp"

#include "io/midi/page_place.hpp"

#include <algorithm>
#include <array>
#include <cstdint>

namespace insideline::io {
namespace {

constexpr double grid_grace_seconds = 0.1;  // longest grace note in a file on the grid
constexpr double plain_share =
    0.9;  // of the notes of a file on the grid are plain, or in a group of fives and the like
constexpr std::size_t most_grid_graces = 4;  // in a row
// Where a tick is shorter than fingers are even, notes hit exact places by chance only: a tenth of all ticks has a name
// in notation and hardly one in a hundred is plain.
constexpr std::uint32_t fine_resolution = 192;
constexpr double sure_plain_share = 0.25;
constexpr double most_graces_share = 0.2;
constexpr double most_unexplained_share = 0.02;

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

/// Elevens, thirteens and the like: what all notes of a quarter divide it into, to a tick, where several have no usual
/// name.
std::optional<std::int64_t> odd_parts(std::span<const MidiNote> quarter, std::span<const std::optional<Beats>> places,
                                      std::uint32_t ticks_per_quarter) {
  constexpr std::ptrdiff_t fewest_unnamed = 3;
  constexpr std::array parts_of_groups = {11, 13, 14, 15, 17, 18, 19, 20};
  const auto unnamed = std::ranges::count_if(places, [](const auto& place) { return !place; });
  if (unnamed < fewest_unnamed) return std::nullopt;
  for (const std::int64_t parts : parts_of_groups) {
    const auto fits = [&](const MidiNote& note) {
      const std::int64_t away = note.onset_ticks * parts % ticks_per_quarter;
      return std::min(away, ticks_per_quarter - away) <= parts;
    };
    if (std::ranges::all_of(quarter, fits)) return parts;
  }
  return std::nullopt;
}

/// Gives a group of odd values its places.
void name_odd_group(std::span<const MidiNote> quarter, std::uint32_t ticks_per_quarter,
                    std::span<std::optional<Beats>> places) {
  const auto parts = odd_parts(quarter, places, ticks_per_quarter);
  for (std::size_t i = 0; parts && i < quarter.size(); ++i) {
    const std::int64_t units = 2 * quarter[i].onset_ticks * *parts + ticks_per_quarter;
    places[i] = Beats(units / (2 * std::int64_t{ticks_per_quarter}), *parts);
  }
}

/// Where each note stands on the page, quarter by quarter. None at all as soon as so many have no name, and do not lead
/// to one as grace notes do, that no grid can explain the line: in a line that was played those are found at once.
std::optional<std::vector<std::optional<Beats>>> page_places(std::span<const MidiNote> notes, const TempoClock& clock,
                                                             std::uint32_t ticks_per_quarter) {
  const double most_unexplained = most_unexplained_share * static_cast<double>(notes.size());
  std::size_t unexplained = 0;
  std::vector<std::optional<Beats>> places;
  places.reserve(notes.size());
  std::size_t end = 0;
  for (std::size_t begin = 0; begin < notes.size(); begin = end) {
    const std::uint32_t quarter = notes[begin].onset_ticks / ticks_per_quarter;
    for (; end < notes.size() && notes[end].onset_ticks / ticks_per_quarter == quarter; ++end)
      places.push_back(page_place(notes[end].onset_ticks, ticks_per_quarter));
    name_odd_group(notes.subspan(begin, end - begin), ticks_per_quarter, std::span(places).subspan(begin));
    for (std::size_t i = begin; i < end; ++i)
      if (!places[i] && !may_be_grace(notes, i, clock)) ++unexplained;
    if (static_cast<double>(unexplained) > most_unexplained) return std::nullopt;
  }
  return places;
}

/// Of the notes, which nearly all stand where notation has a name for it or lead to one, so many are plain that it
/// cannot be chance.
bool is_fine_grid(std::span<const MidiNote> notes, std::span<const std::optional<Beats>> places,
                  const TempoClock& clock, std::uint32_t ticks_per_quarter) {
  if (ticks_per_quarter < fine_resolution) return false;
  std::size_t plain = 0;
  std::size_t graces = 0;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    if (is_plain_place(notes[i].onset_ticks, ticks_per_quarter)) ++plain;
    if (!places[i] && may_be_grace(notes, i, clock)) ++graces;
  }
  const auto all = static_cast<double>(notes.size());
  return static_cast<double>(plain) >= sure_plain_share * all && static_cast<double>(graces) <= most_graces_share * all;
}

/// Nearly all notes are plain or in a group, and the others lead to one as grace notes do.
bool is_plain_grid(std::span<const MidiNote> notes, std::span<const std::optional<Beats>> places,
                   const TempoClock& clock, std::uint32_t ticks_per_quarter) {
  std::size_t plain = 0;
  std::size_t main_notes = 0;
  std::size_t graces = 0;
  for (std::size_t i = 0; i < notes.size(); ++i) {
    graces = places[i] ? 0 : graces + 1;
    if (graces > most_grid_graces || (graces > 0 && !may_be_grace(notes, i, clock))) return false;
    if (graces > 0) continue;
    ++main_notes;
    if (is_plain_or_grouped(notes, i, ticks_per_quarter)) ++plain;
  }
  return static_cast<double>(plain) >= plain_share * static_cast<double>(main_notes);
}

/// Lengths, and grace notes onto what they lead to.
void fill_lengths(std::span<const MidiNote> notes, std::uint32_t ticks_per_quarter, std::vector<LineNote>& line) {
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
    line[i].duration = std::max(end - line[i].onset, Beats(1, ticks_per_quarter));
    next = line[i].onset;
  }
}

/// Halves and their kin, as nearly all are, need no common divisor to be looked for.
Beats quarters_of(std::int64_t units) {
  constexpr std::int64_t finest = 64;
  constexpr std::int64_t unit = units_per_quarter / finest;
  return units % unit == 0 ? Beats(units / unit, finest) : beats_of(units);
}

}  // namespace

std::optional<std::vector<LineNote>> line_on_grid(std::span<const MidiNote> notes, const TempoClock& clock,
                                                  std::uint32_t ticks_per_quarter) {
  const auto found = page_places(notes, clock, ticks_per_quarter);
  if (!found) return std::nullopt;
  const std::span<const std::optional<Beats>> places = *found;
  if (!is_fine_grid(notes, places, clock, ticks_per_quarter) && !is_plain_grid(notes, places, clock, ticks_per_quarter))
    return std::nullopt;
  std::vector<LineNote> line(notes.size());
  for (std::size_t i = 0; i < notes.size(); ++i) {
    line[i].grace = !places[i] && may_be_grace(notes, i, clock);
    line[i].onset = places[i].value_or(Beats(notes[i].onset_ticks, ticks_per_quarter));
  }
  fill_lengths(notes, ticks_per_quarter, line);
  return line;
}

bool swings_on_grid(std::span<const LineNote> line) {
  constexpr std::size_t fewest_off_beats = 8;
  constexpr std::size_t nine_tenths = 9;
  std::vector<Beats> swung;
  for (std::size_t i = 0; i < line.size(); ++i) {
    const Beats within = remainder_within(line[i].onset, 1);
    if (line[i].grace || within < Beats(1, 2) || within > Beats(4, 5)) continue;
    const bool after_beat = i == 0 || line[i].onset - line[i - 1].onset >= within;  // nothing but the beat before it
    if (!after_beat) continue;
    if (within == Beats(1, 2)) return false;
    swung.push_back(within);
  }
  if (swung.size() < fewest_off_beats) return false;
  const auto middle = swung.begin() + static_cast<std::ptrdiff_t>(swung.size() / 2);
  std::ranges::nth_element(swung, middle);
  const Beats usual = *middle;
  const auto same = static_cast<std::size_t>(std::ranges::count(swung, usual));
  const bool is_written_so = usual == Beats(2, 3) || usual == Beats(3, 4);  // if but one is another
  return is_written_so ? same == swung.size() : 10 * same >= nine_tenths * swung.size();
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
    line.push_back({quarters_of(note.onset), quarters_of(note.duration), note.grace});
  return line;
}

}  // namespace insideline::io
