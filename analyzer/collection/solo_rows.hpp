// One solo as the rows of a collection: what a table of many solos can be asked about. Plain values and no database.
#pragma once

#include "analyzer/analysis.hpp"
#include "analyzer/model/solo.hpp"

#include <optional>
#include <string>
#include <vector>

namespace insideline {

struct ChordEntry {
  std::string symbol;
  std::string quality;
  double onset = 0.0;     ///< quarter notes from bar 1
  double duration = 0.0;  ///< quarter notes
  int bar = 1;
  int chorus = 1;
};

struct NoteEntry {
  int bar = 1;
  double onset = 0.0;
  double duration = 0.0;  ///< 0 for a grace note
  int midi = 60;          ///< sounding
  std::string name;
  std::optional<std::size_t> chord;     ///< sounding
  std::optional<std::size_t> governor;  ///< heard against
  std::string degree;                   ///< empty where there is none
  Role role = Role::no_chord;
  Figure figure = Figure::none;
  Placement placement = Placement::in_place;
  double confidence = 1.0;
};

struct ArpeggioEntry {
  std::size_t first_note = 0;
  std::size_t chord = 0;
  std::string shape;  ///< "3-5-b7", in the order played
  Direction direction = Direction::mixed;
  Inversion inversion = Inversion::root_position;
  int notes = 0;
  int ornaments = 0;
  bool complete = false;
  bool straight_descent = false;
  int legs_up = 0;
  int legs_down = 0;
};

struct ConnectionEntry {
  std::size_t from_chord = 0;
  std::size_t to_chord = 0;
  std::optional<std::size_t> from_note;
  std::optional<std::size_t> to_note;
  std::optional<int> semitones;
  ConnectionKind kind = ConnectionKind::none;
  bool guide_tone = false;
  std::optional<bool> took_nearest;
};

struct CellEntry {
  std::string degrees;  ///< "3-5"
  Direction direction = Direction::mixed;
  std::string quality;  ///< of the chord
  int count = 0;
};

struct FigureEntry {
  std::string key;  ///< FigureRow::key
  double part = 0.0;
  double whole = 0.0;
  std::optional<double> value;  ///< none where nothing was counted
};

struct SoloRows {
  std::string title;
  std::string part;
  int bars = 0;
  int choruses = 1;
  std::vector<ChordEntry> chords;            ///< parallel to Harmony::chords
  std::vector<NoteEntry> notes;              ///< parallel to Solo::notes
  std::vector<ArpeggioEntry> arpeggios;      ///< parallel to Analysis::arpeggios
  std::vector<ConnectionEntry> connections;  ///< parallel to Analysis::connections
  std::vector<CellEntry> cells;              ///< parallel to Analysis::cells
  std::vector<FigureEntry> figures;          ///< parallel to figure_rows()
};

SoloRows solo_rows(const Solo& solo, const Analysis& analysis);

/// The figures alone.
std::vector<FigureEntry> figure_entries(const Solo& solo, const Analysis& analysis);

}  // namespace insideline
