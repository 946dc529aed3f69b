#include "reports/text/bar_columns.hpp"

#include <algorithm>

#include "reports/text/display_width.hpp"

namespace insideline::reports {
namespace {

/// Sixteenths are counted "1 e & a"; other parts of a beat are fractions of it.
std::string beat_name(const Beats& beat) {
  const Beats within = remainder_within(beat, 1);
  if (within == Beats(0)) return to_string(beat);
  if (within == Beats(1, 2)) return "&";
  if (within == Beats(1, 4)) return "e";
  if (within == Beats(3, 4)) return "a";
  if (within.denominator() > 16) return ".";
  return to_string(within);
}

bool begins_in(const Bar& bar, const Beats& position) {
  return position >= bar.onset && position < bar.onset + bar.length;
}

/// Index of the first note that begins at `position` or later.
std::size_t first_note_from(const Solo& solo, const Beats& position) {
  const auto first = std::ranges::lower_bound(solo.notes, position, {}, &Note::onset);
  return static_cast<std::size_t>(first - solo.notes.begin());
}

/// When the note that began last before `position` ends; none before the first note.
std::optional<Beats> end_of_last_before(const Solo& solo, const Beats& position) {
  for (std::size_t i = first_note_from(solo, position); i > 0; --i)
    if (!solo.notes[i - 1].grace) return end_of(solo.notes[i - 1]);
  return std::nullopt;
}

bool sounds_at(const Solo& solo, const Beats& position) {
  const auto end = end_of_last_before(solo, position);
  return end && *end > position;
}

/// The columns of notes and, where the line is silent, of rests.
std::vector<BarColumn> line_columns(const Solo& solo, const Bar& bar) {
  std::vector<BarColumn> columns;
  Beats sounding_until = bar.onset;
  if (sounds_at(solo, bar.onset)) {
    sounding_until = *end_of_last_before(solo, bar.onset);
    const std::size_t first = first_note_from(solo, bar.onset);
    const bool struck_at_once = first < solo.notes.size() && solo.notes[first].onset == bar.onset;
    if (!struck_at_once) columns.push_back({.position = bar.onset, .held = true});
  }
  for (std::size_t i = first_note_from(solo, bar.onset); i < solo.notes.size(); ++i) {
    const Note& note = solo.notes[i];
    if (!begins_in(bar, note.onset)) break;
    if (note.onset > sounding_until) columns.push_back({.position = sounding_until});
    columns.push_back({.position = note.onset, .note = i});
    sounding_until = std::max(sounding_until, end_of(note));
  }
  if (sounding_until < bar.onset + bar.length) columns.push_back({.position = sounding_until});
  return columns;
}

bool has_column_at(const std::vector<BarColumn>& columns, const Beats& position) {
  return std::ranges::any_of(columns, [&position](const BarColumn& column) { return column.position == position; });
}

/// Columns for chords that begin or end where the line does nothing.
void add_chord_columns(const Report& report, const Bar& bar, std::vector<BarColumn>& columns) {
  const auto add = [&](const Beats& position) {
    if (!begins_in(bar, position) || has_column_at(columns, position)) return;
    const auto after =
        std::ranges::find_if(columns, [&position](const BarColumn& column) { return column.position > position; });
    columns.insert(after, {.position = position, .held = sounds_at(report.solo, position)});
  };
  const std::vector<SoundingChord>& chords = report.analysis.harmony.chords;
  auto chord = std::ranges::upper_bound(chords, bar.onset, {}, &SoundingChord::onset);
  if (chord != chords.begin()) --chord;  // perhaps it sounds on into the bar
  for (; chord != chords.end() && begins_in(bar, std::max(chord->onset, bar.onset)); ++chord) {
    add(chord->onset);
    add(chord->onset + chord->duration);
  }
}

void name_chords(const Harmony& harmony, const Bar& bar, std::vector<BarColumn>& columns) {
  std::optional<std::size_t> before;
  for (std::size_t i = 0; i < columns.size(); ++i) {
    const auto sounding = chord_index_at(harmony, columns[i].position);
    const bool first_there = i == 0 || columns[i - 1].position < columns[i].position;
    if (first_there && (i == 0 || sounding != before)) {
      if (sounding)
        columns[i].chord = printable(harmony.chords[*sounding].chord.symbol);
      else if (bar.number >= 1)
        columns[i].chord = "N.C.";
    }
    before = sounding;
  }
}

}  // namespace

std::vector<BarColumn> bar_columns(const Report& report, std::size_t bar_index) {
  const Bar& bar = report.solo.bars[bar_index];
  std::vector<BarColumn> columns = line_columns(report.solo, bar);
  add_chord_columns(report, bar, columns);
  name_chords(report.analysis.harmony, bar, columns);
  for (BarColumn& column : columns) {
    const bool grace = column.note && report.solo.notes[*column.note].grace;
    column.beat = grace ? "gr" : beat_name(beat_in_bar(bar, column.position));
  }
  return columns;
}

}  // namespace insideline::reports
