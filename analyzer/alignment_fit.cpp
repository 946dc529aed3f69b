#include "analyzer/alignment_fit.hpp"

#include "analyzer/heard_line.hpp"
#include "analyzer/labels/chord_colours.hpp"

#include <algorithm>

namespace insideline {
namespace {

constexpr std::int64_t fine_ticks_per_quarter = 5040;  // divisible by 1 .. 10

// What a note says about a place. The steps are those that real playing shows: over the chord that sounds, chord tones
// are half as frequent again as by chance, colours as frequent, altered and foreign notes half as frequent.
constexpr std::int16_t for_the_place = 48;
constexpr std::int16_t neither = 0;
constexpr std::int16_t against_the_place = -48;
constexpr std::int16_t over_no_chord = -16;

std::int64_t fine_ticks(const Beats& time) { return whole_units(time * fine_ticks_per_quarter, 1); }
std::int64_t floor_of(std::int64_t value, std::int64_t round) { return value / round - (value % round < 0 ? 1 : 0); }
int wrapped(std::int64_t value, std::int64_t round) { return static_cast<int>(value - floor_of(value, round) * round); }

/// The third of a blues is a colour over any chord with a major third.
bool is_blue_third(const ChordColours& chord, int pitch_class) {
  constexpr int minor_third = 3;
  return chord.dominant && chord.above(pitch_class) == minor_third;
}

std::int16_t weight_over(const ChordColours& chord, int pitch_class) {
  if (contains(chord.tones, pitch_class)) return for_the_place;
  const auto colour = chord.colour(pitch_class);
  if (!colour || *colour == Colour::foreign) return against_the_place;
  if (*colour == Colour::altered && !is_blue_third(chord, pitch_class)) return against_the_place;
  return neither;
}

PitchClassSet strict_tones(const Chord& chord) {
  unsigned tones = 0;
  for (const Degree& degree : chord.tones)
    tones |= 1U << static_cast<unsigned>(pitch_class(note_at(chord.root, degree)));
  return static_cast<PitchClassSet>(tones);
}

int weight_by_length(std::int64_t ticks) {
  constexpr std::int64_t eighth = fine_ticks_per_quarter / 2;
  if (4 * ticks < 3 * eighth) return 8;
  if (ticks < 3 * eighth / 2) return 10;
  return ticks < 3 * eighth ? 13 : 15;
}

}  // namespace

LineOverChart::LineOverChart(const Changes& changes, const Solo& solo, const Beats& first_bar) {
  const Beats length = changes.bars.front().length;
  const Beats beat = beat_length(changes.meter.value_or(Meter{}));
  const std::int64_t beats = whole_units(length, beat);
  const bool in_beats = beats > 0 && Beats(beats) * beat == length;
  constexpr int cells_without_beats = 8;
  bar_cells_ = in_beats ? static_cast<int>(2 * beats) : cells_without_beats;
  cell_ = length / Beats(bar_cells_);
  form_cells_ = bar_cells_ * static_cast<int>(changes.bars.size());
  fill_rows(changes);
  place_notes(solo, first_bar);
  hold_rows_against_the_line();
}

void LineOverChart::fill_rows(const Changes& changes) {
  rows_.resize(static_cast<std::size_t>(form_cells_));
  for (const ChordSpan& span : changes.spans) {
    Row row;
    row.weights.fill(over_no_chord);
    if (span.chord) {
      const ChordColours colours(*span.chord);
      row.tones = strict_tones(*span.chord);
      row.sounds = true;
      for (int note = 0; note < 2 * pitch_classes; ++note)
        row.weights[static_cast<std::size_t>(note)] = weight_over(colours, note % pitch_classes);
    }
    // A chord that begins inside a cell has the cells that begin under it.
    const std::int64_t first = -whole_units(-span.onset, cell_);
    const std::int64_t end = std::min<std::int64_t>(-whole_units(-(span.onset + span.duration), cell_), form_cells_);
    for (std::int64_t each = std::max<std::int64_t>(first, 0); each < end; ++each)
      rows_[static_cast<std::size_t>(each)] = row;
  }
}

void LineOverChart::place_notes(const Solo& solo, const Beats& first_bar) {
  const std::int64_t cell_ticks = std::max<std::int64_t>(fine_ticks(cell_), 1);
  const std::int64_t first = fine_ticks(first_bar);
  std::size_t bar = 0;
  std::size_t last_bar = solo.bars.size();
  for (const Note& note : solo.notes) {
    if (note.grace || note.onset < Beats{}) continue;
    while (bar + 1 < solo.bars.size() && solo.bars[bar + 1].onset <= note.onset) ++bar;
    const std::int64_t ticks = fine_ticks(note.onset) - first;
    const std::int64_t cell = floor_of(ticks, cell_ticks);
    if (bar != last_bar)
      form_bar_of_group_.push_back(static_cast<std::size_t>(wrapped(cell, form_cells_) / bar_cells_));
    last_bar = bar;
    const bool on_beat = cell % 2 == 0 && cell * cell_ticks == ticks;
    constexpr int more_on_a_beat = 2;
    notes_.push_back({.bar = static_cast<int>(floor_of(cell, bar_cells_)),
                      .into_bar = wrapped(cell, bar_cells_),
                      .form_cell = wrapped(cell, form_cells_),
                      .pitch_class = wrapped(midi_number(note.pitch), pitch_classes),
                      .weight = weight_by_length(fine_ticks(note.duration)) + (on_beat ? more_on_a_beat : 0),
                      .group = form_bar_of_group_.size() - 1});
  }
}

void LineOverChart::hold_rows_against_the_line() {
  std::array<std::int64_t, pitch_classes> share{};
  std::int64_t all = 0;
  for (const PlacedNote& note : notes_) {
    share.at(static_cast<std::size_t>(note.pitch_class)) += note.weight;
    all += note.weight;
  }
  if (all == 0) return;
  for (std::size_t cell = 0; cell < rows_.size(); ++cell) {
    Row& row = rows_[cell];
    if (cell > 0 && row.weights == rows_[cell - 1].weights) {
      row.above_the_line = rows_[cell - 1].above_the_line;
      continue;
    }
    std::int64_t usual = 0;
    for (std::size_t note = 0; note < share.size(); ++note) usual += share.at(note) * row.weights.at(note);
    for (std::size_t note = 0; note < share.size(); ++note)
      row.above_the_line.at(note) = static_cast<std::int16_t>(row.weights.at(note) - usual / all);
  }
}

const LineOverChart::Row* LineOverChart::row_of(const PlacedNote& note, const ChartPlace& place) const {
  const int cell = note.form_cell - place.cells;  // place.cells lies within one form
  return &rows_[static_cast<std::size_t>(cell < 0              ? cell + form_cells_
                                         : cell >= form_cells_ ? cell - form_cells_
                                                               : cell)];
}

/// None in the bar that the chart has not.
const LineOverChart::Row* LineOverChart::row_of(const PlacedNote& note, const FormSlip& slip) const {
  const int bar = wrapped(note.bar, form_bars() + slip.by);
  if (slip.by > 0 && bar == slip.at) return nullptr;
  const int charted = slip.by > 0 ? bar - (bar > slip.at ? 1 : 0) : bar + (bar >= slip.at ? 1 : 0);
  return &rows_[static_cast<std::size_t>(charted * bar_cells_ + note.into_bar)];
}

LineOverChart::Sums LineOverChart::fit(const ChartPlace& place, FitAgainst against) const {
  Sums sums(groups());
  if (against == FitAgainst::the_line) {
    for (const PlacedNote& note : notes_)
      sums[note.group] += note.weight * row_of(note, place)->above_the_line[static_cast<std::size_t>(note.pitch_class)];
    return sums;
  }
  for (const PlacedNote& note : notes_)
    sums[note.group] +=
        note.weight * row_of(note, place)->weights[static_cast<std::size_t>(note.pitch_class + place.semitones)];
  return sums;
}

LineOverChart::Sums LineOverChart::fit(const FormSlip& slip) const {
  Sums sums(groups());
  for (const PlacedNote& note : notes_)
    if (const Row* row = row_of(note, slip))
      sums[note.group] += note.weight * row->above_the_line[static_cast<std::size_t>(note.pitch_class)];
  return sums;
}

template <typename Place>
Share LineOverChart::counted(const Place& place, int semitones) const {
  Share share;
  for (const PlacedNote& note : notes_) {
    const Row* row = row_of(note, place);
    if (row == nullptr || !row->sounds) continue;
    ++share.of;
    share.count += contains(row->tones, (note.pitch_class + semitones) % pitch_classes) ? 1 : 0;
  }
  return share;
}

Share LineOverChart::chord_tones(const ChartPlace& place) const { return counted(place, place.semitones); }
Share LineOverChart::chord_tones(const FormSlip& slip) const { return counted(slip, 0); }

/// Before the slip the bars lie as they do, after it one off: with sums over each bar of the form laid both ways, the
/// fit of every place of the slip follows from the place before it.
LineOverChart::LikelySlip LineOverChart::best_slip(int by) const {
  const int form = form_bars();
  const int bars = form + by;
  std::vector<std::int64_t> before(static_cast<std::size_t>(bars));
  std::vector<std::int64_t> after(static_cast<std::size_t>(bars));
  const auto weight = [&](const PlacedNote& note, int bar) {
    if (bar < 0 || bar >= form) return std::int64_t{0};
    const Row& row = rows_[static_cast<std::size_t>(bar * bar_cells_ + note.into_bar)];
    return std::int64_t{note.weight} * row.above_the_line[static_cast<std::size_t>(note.pitch_class)];
  };
  for (const PlacedNote& note : notes_) {
    const int bar = wrapped(note.bar, bars);
    before[static_cast<std::size_t>(bar)] += weight(note, bar);
    after[static_cast<std::size_t>(bar)] += weight(note, bar - by);
  }
  std::vector<std::int64_t> fits;
  std::int64_t fit = 0;
  for (int bar = by > 0 ? 1 : 0; bar < bars; ++bar) fit += after[static_cast<std::size_t>(bar)];
  fits.push_back(fit);
  for (int at = 1; at < form + (by > 0 ? 1 : 0); ++at) {
    fit += before[static_cast<std::size_t>(at - 1)];
    // A missing bar takes its own notes out of the sum, a superfluous one has none.
    fit -= after[static_cast<std::size_t>(by > 0 ? at : at - 1)];
    fits.push_back(fit);
  }
  constexpr std::int64_t nearly = std::int64_t{5} * chord_tone_points;
  const auto best = std::ranges::max_element(fits);
  const auto is_near = [&](std::int64_t value) { return value >= *best - nearly; };
  auto first = best;
  auto last = best;
  while (first != fits.begin() && is_near(*(first - 1))) --first;
  while (last + 1 != fits.end() && is_near(*(last + 1))) ++last;
  const auto number = [&](auto place) { return static_cast<int>(place - fits.begin()); };
  return {.slip = {.by = by, .at = number(best)}, .first = number(first), .last = number(last)};
}

double weight_of_fit(const LineOverChart& line, const ChartPlace& place) {
  // A chord tone on an eighth over real playing is half as frequent again as by chance; the lower value allows for
  // notes that hang together.
  constexpr double for_each_point = 0.35 / LineOverChart::chord_tone_points;
  std::int64_t fit = 0;
  for (const std::int64_t bar : line.fit(place, FitAgainst::nothing)) fit += bar;
  return for_each_point * static_cast<double>(fit);
}

}  // namespace insideline
