// Where everything stands on the line map: bars in systems, time across, pitch upwards, and degrees beside their
// notes so that none lies on another. Numbers only; line_map.cpp draws.
#pragma once

#include "reports/html/map_systems.hpp"
#include "reports/report.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace insideline::reports {

struct MapSize {
  double width = 0.0;
  double height = 0.0;
  double left = 0.0;            ///< where the first bar line stands
  double right = 0.0;           ///< where the last one of a full system stands
  double per_quarter = 0.0;     ///< units a quarter note is wide
  double per_semitone = 0.0;    ///< units a semitone is high
  double chord_baseline = 0.0;  ///< of the lower row of symbols
  double bracket_line = 0.0;    ///< of the lower row of brackets
  double pitch_top = 0.0;
  double pitch_bottom = 0.0;
  int highest = 0;  ///< midi numbers of the topmost and lowest row
  int lowest = 0;
};

struct Box {
  double left = 0.0;
  double top = 0.0;
  double width = 0.0;
  double height = 0.0;
};
bool overlap(const Box& a, const Box& b);

/// The middle of the lettering of a degree, from the middle of its note's mark.
struct DegreePlace {
  double dx = 0.0;
  double dy = 0.0;
};

struct MapLayout {
  std::vector<MapSystem> systems;  ///< in the order they are played
  std::vector<MapSize> sizes;      ///< parallel to `systems`; they differ in height alone
  std::vector<double> note_x;      ///< the middles of the marks, by index of the note
  std::vector<double> note_y;
  std::vector<DegreePlace> degrees;  ///< parallel to Solo::notes
  std::vector<int> chord_rows;       ///< by index of the chord: 0 lower, 1 upper
  std::vector<int> bracket_rows;     ///< by index of the arpeggio
};

constexpr double degree_size = 11.0;  // of the lettering
constexpr double chord_size = 15.0;
constexpr double bracket_size = 11.0;
constexpr double mark_radius = 5.0;
constexpr double after_line = 9.0;  ///< the mark of a note on the downbeat stands so far behind the bar line

MapLayout lay_out_map(const Report& report);

double x_of(const MapLayout& layout, const MapSystem& system, const Beats& position);
double y_of(const MapSize& size, int midi);

/// The width that the bracket over an arpeggio and its words take in its first system, in the row they get; no height.
Box bracket_room(const MapLayout& layout, const Arpeggio& arpeggio);

/// The system that holds note `note`.
std::size_t system_of_note(const MapLayout& layout, std::size_t note);

/// "♭7", "[9]", "(♭9)", "♯5!": as on the terminal, with printed accidentals.
std::string shown_degree(const NoteLabel& label);

/// "down! 5 3 1": which way an arpeggio goes, and its degrees.
std::string shown_cell(const Arpeggio& arpeggio);

/// The room `words` take in letters of `size`, rather too much than too little.
double lettering_width(const std::string& words, double size);

}  // namespace insideline::reports
