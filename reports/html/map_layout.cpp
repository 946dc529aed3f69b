#include "reports/html/map_layout.hpp"

#include "reports/html/markup.hpp"
#include "reports/printed/signs.hpp"
#include "reports/text/display_width.hpp"
#include "reports/text/marks.hpp"

#include <algorithm>
#include <array>

namespace insideline::reports {
namespace {

constexpr double map_width = 1072.0;
constexpr double left_margin = 62.0;
constexpr double right_margin = 10.0;
constexpr double gap = 4.0;   // between two pieces of lettering in a row
constexpr int free_rows = 3;  // above the highest note and below the lowest, for degrees

/// Keeps lettering apart in two rows: the lower where it fits, else the upper, else the one that is sooner free.
class RowKeeper {
 public:
  int row_for(double left, double width) {
    const bool lower_is_free = left >= ends_[0] + gap;
    const bool upper_is_free = left >= ends_[1] + gap;
    const int row = lower_is_free ? 0 : upper_is_free ? 1 : ends_[0] <= ends_[1] ? 0 : 1;
    ends_.at(static_cast<std::size_t>(row)) = left + width;
    return row;
  }

 private:
  std::array<double, 2> ends_ = {-1e9, -1e9};
};

Box centred(double x, double y, double width, double height) {
  return {.left = x - width / 2, .top = y - height / 2, .width = width, .height = height};
}

double covered(const Box& a, const Box& b) {
  const double across = std::min(a.left + a.width, b.left + b.width) - std::max(a.left, b.left);
  const double down = std::min(a.top + a.height, b.top + b.height) - std::max(a.top, b.top);
  return across > 0 && down > 0 ? across * down : 0.0;
}

/// Bit by bit farther away, over and under in turn; the first is over where the line peaks, under where it dips.
std::vector<DegreePlace> places_to_try(bool under_first) {
  std::vector<DegreePlace> places;
  const double near = under_first ? 1.0 : -1.0;
  for (const double distance : {12.5, 17.0, 23.0, 29.0})
    for (const double side : {near, -near})
      for (const double aside : {0.0, 5.0, -5.0, 10.0}) places.push_back({.dx = aside, .dy = side * distance});
  return places;
}

/// Finds room for the degrees of one system, note by note.
void place_degrees(const Report& report, std::size_t number, MapLayout& layout) {
  const MapSystem& system = layout.systems[number];
  const MapSize& size = layout.sizes[number];
  constexpr std::size_t neighbours = 9;
  constexpr double mark_width = 2 * mark_radius + 1;
  std::vector<Box> lettering;
  std::vector<Box> bar_lines;
  for (std::size_t bar = system.first_bar; bar <= system.last_bar; ++bar)
    bar_lines.push_back({.left = x_of(layout, system, report.solo.bars[bar].onset) - 1,
                         .top = size.pitch_top,
                         .width = 2.0,
                         .height = size.pitch_bottom - size.pitch_top});
  for (std::size_t i = system.first_note; i < system.end_note; ++i) {
    const double x = layout.note_x[i];
    const double y = layout.note_y[i];
    const double width = lettering_width(shown_degree(report.analysis.labels[i]), degree_size);
    const bool rises_to_next = i + 1 < system.end_note && layout.note_y[i + 1] < y;
    const bool falls_from_last = i > system.first_note && layout.note_y[i - 1] < y;
    DegreePlace best;
    double least = 1e9;
    for (const DegreePlace& place : places_to_try(rises_to_next && falls_from_last)) {
      const Box box = centred(x + place.dx, y + place.dy, width, degree_size);
      double cost = 0.0;
      if (box.top < size.pitch_top - 2 || box.top + box.height > size.pitch_bottom + 2) cost += 500.0;
      if (box.left + box.width > size.width) cost += 500.0;
      const std::size_t first = i - std::min(i - system.first_note, neighbours);
      for (std::size_t other = first; other < std::min(system.end_note, i + neighbours); ++other)
        cost += covered(box, centred(layout.note_x[other], layout.note_y[other], mark_width, mark_width));
      for (std::size_t k = lettering.size() - std::min(lettering.size(), neighbours); k < lettering.size(); ++k)
        cost += covered(box, lettering[k]);
      for (const Box& bar_line : bar_lines) cost += covered(box, bar_line);
      if (cost >= least) continue;
      least = cost;
      best = place;
      if (cost == 0.0) break;  // NOLINT: an exact zero, nothing was added
    }
    layout.degrees[i] = best;
    lettering.push_back(centred(x + best.dx, y + best.dy, width, degree_size));
  }
}

double longest_system(const std::vector<MapSystem>& systems) {
  Beats longest(1);
  for (const MapSystem& system : systems) longest = std::max(longest, system.end - system.onset);
  return to_double(longest);
}

void place_notes(const Report& report, MapLayout& layout) {
  constexpr double grace_step = 11.0;
  const std::vector<Note>& notes = report.solo.notes;
  layout.note_x.resize(notes.size());
  layout.note_y.resize(notes.size());
  for (std::size_t number = 0; number < layout.systems.size(); ++number) {
    const MapSystem& system = layout.systems[number];
    double back = 0.0;
    for (std::size_t i = system.end_note; i-- > system.first_note;) {
      back = notes[i].grace ? back + grace_step : 0.0;
      layout.note_x[i] = x_of(layout, system, notes[i].onset) + after_line - back;
      layout.note_y[i] = y_of(layout.sizes[number], midi_number(notes[i].pitch));
    }
  }
}

/// How many rows a system needs.
struct Rows {
  int chords = 1;
  int brackets = 0;
};

void choose_chord_rows(const Harmony& harmony, MapLayout& layout, std::vector<Rows>& needed) {
  layout.chord_rows.assign(harmony.chords.size(), 0);
  std::size_t chord = 0;
  for (std::size_t number = 0; number < layout.systems.size(); ++number) {
    const MapSystem& system = layout.systems[number];
    RowKeeper rows;
    for (; chord < harmony.chords.size() && harmony.chords[chord].onset < system.end; ++chord) {
      const std::string symbol = printable(harmony.chords[chord].chord.symbol);
      const int row =
          rows.row_for(x_of(layout, system, harmony.chords[chord].onset), lettering_width(symbol, chord_size));
      layout.chord_rows[chord] = row;
      needed[number].chords = std::max(needed[number].chords, row + 1);
    }
  }
}

void choose_bracket_rows(const std::vector<Arpeggio>& arpeggios, MapLayout& layout, std::vector<Rows>& needed) {
  layout.bracket_rows.assign(arpeggios.size(), 0);
  std::optional<std::size_t> last_system;
  RowKeeper rows;
  for (std::size_t i = 0; i < arpeggios.size(); ++i) {
    const std::size_t first = system_of_note(layout, arpeggios[i].notes.front());
    const std::size_t last = system_of_note(layout, arpeggios[i].notes.back());
    if (first != last_system) rows = RowKeeper();
    last_system = first;
    const Box room = bracket_room(layout, arpeggios[i]);
    layout.bracket_rows[i] = rows.row_for(room.left, room.width);
    for (std::size_t number = first; number <= last; ++number)
      needed[number].brackets = std::max(needed[number].brackets, layout.bracket_rows[i] + 1);
  }
}

void choose_pitches(const Solo& solo, MapSize& size) {
  constexpr int middle_c = 60;
  constexpr double usual = 7.0;
  constexpr double tallest = 300.0;
  size.highest = middle_c;
  size.lowest = middle_c;
  for (std::size_t i = 0; i < solo.notes.size(); ++i) {
    const int midi = midi_number(solo.notes[i].pitch);
    size.highest = i == 0 ? midi : std::max(size.highest, midi);
    size.lowest = i == 0 ? midi : std::min(size.lowest, midi);
  }
  size.highest += free_rows;
  size.lowest -= free_rows;
  size.per_semitone = std::clamp(tallest / (size.highest - size.lowest + 1), 3.0, usual);
}

/// Heights from the top: names and bar numbers, chord symbols, brackets, pitches.
void stack_rows(const Rows& rows, MapSize& size) {
  constexpr double first_chords = 35.0;
  constexpr double more_chords = 17.0;
  constexpr double first_brackets = 28.0;
  constexpr double more_brackets = 18.0;
  size.chord_baseline = first_chords + more_chords * (rows.chords - 1);
  size.bracket_line = size.chord_baseline;
  if (rows.brackets > 0) size.bracket_line += first_brackets + more_brackets * (rows.brackets - 1);
  size.pitch_top = size.bracket_line + 8.0;
  size.pitch_bottom = size.pitch_top + size.per_semitone * (size.highest - size.lowest + 1);
  size.height = size.pitch_bottom + 6.0;
}

}  // namespace

bool overlap(const Box& a, const Box& b) { return covered(a, b) > 0.0; }

MapLayout lay_out_map(const Report& report) {
  MapLayout layout;
  layout.systems = map_systems(report);
  MapSize size;
  size.width = map_width;
  size.left = left_margin;
  size.right = map_width - right_margin;
  size.per_quarter = (size.right - size.left) / longest_system(layout.systems);
  choose_pitches(report.solo, size);
  layout.sizes.assign(layout.systems.size(), size);
  place_notes(report, layout);  // across: the rows need it
  std::vector<Rows> rows(layout.systems.size());
  choose_chord_rows(report.analysis.harmony, layout, rows);
  choose_bracket_rows(report.analysis.arpeggios, layout, rows);
  for (std::size_t number = 0; number < rows.size(); ++number) stack_rows(rows[number], layout.sizes[number]);
  place_notes(report, layout);
  layout.degrees.resize(report.solo.notes.size());
  for (std::size_t number = 0; number < layout.systems.size(); ++number) place_degrees(report, number, layout);
  return layout;
}

double x_of(const MapLayout& layout, const MapSystem& system, const Beats& position) {
  const MapSize& size = layout.sizes.front();
  return size.left + size.per_quarter * to_double(position - system.onset);
}

double y_of(const MapSize& size, int midi) {
  return size.pitch_top + size.per_semitone * (static_cast<double>(size.highest - midi) + 0.5);
}

Box bracket_room(const MapLayout& layout, const Arpeggio& arpeggio) {
  const double words = lettering_width(shown_cell(arpeggio), bracket_size);
  const double from = layout.note_x[arpeggio.notes.front()] - mark_radius;
  const bool goes_on = system_of_note(layout, arpeggio.notes.front()) != system_of_note(layout, arpeggio.notes.back());
  const double to = goes_on ? layout.sizes.front().right : layout.note_x[arpeggio.notes.back()] + mark_radius;
  const double left = std::min(from, layout.sizes.front().width - words);
  return {.left = left, .top = 0.0, .width = std::max(to, left + words) - left, .height = 0.0};
}

std::size_t system_of_note(const MapLayout& layout, std::size_t note) {
  const auto after = std::ranges::upper_bound(layout.systems, note, {}, &MapSystem::end_note);
  return std::min(static_cast<std::size_t>(after - layout.systems.begin()), layout.systems.size() - 1);
}

std::string shown_degree(const NoteLabel& label) { return with_accidentals(degree_mark(label)); }

std::string shown_cell(const Arpeggio& arpeggio) {
  std::string cell(way_of(arpeggio));
  for (const Degree& degree : arpeggio.degrees) cell += ' ' + with_accidentals(to_string(degree));
  return cell;
}

double lettering_width(const std::string& words, double size) {
  constexpr double widest_usual = 0.6;  // of the size: digits and capitals of common sans-serif faces
  return widest_usual * size * static_cast<double>(display_width(words));
}

}  // namespace insideline::reports
