#include "io/database/solo_writer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <limits>
#include <optional>

namespace insideline::io {
namespace {

/// The words for all values of an enumeration, made once: a note has three of them.
template <typename Kind, Kind last>
const std::string& word(Kind kind) {
  static const auto words = [] {
    std::array<std::string, static_cast<std::size_t>(last) + 1> all;
    for (std::size_t i = 0; i < all.size(); ++i) all.at(i) = to_string(static_cast<Kind>(i));
    return all;
  }();
  return words.at(static_cast<std::size_t>(kind));
}

/// What the foreign keys of the tables say, without looking it up in them.
bool fit_together(const SoloRows& rows) {
  const auto is_chord = [&](std::size_t chord) { return chord < rows.chords.size(); };
  const auto is_note = [&](std::size_t note) { return note < rows.notes.size(); };
  const auto or_none = [](const auto& is_there) {
    return [&is_there](const std::optional<std::size_t>& number) { return !number || is_there(*number); };
  };
  const auto chord_or_none = or_none(is_chord);
  const auto note_or_none = or_none(is_note);
  return std::ranges::all_of(
             rows.notes,
             [&](const NoteEntry& note) { return chord_or_none(note.chord) && chord_or_none(note.governor); }) &&
         std::ranges::all_of(
             rows.arpeggios,
             [&](const ArpeggioEntry& run) { return is_chord(run.chord) && is_note(run.first_note); }) &&
         std::ranges::all_of(rows.connections, [&](const ConnectionEntry& connection) {
           return is_chord(connection.from_chord) && is_chord(connection.to_chord) &&
                  note_or_none(connection.from_note) && note_or_none(connection.to_note);
         });
}

}  // namespace

std::int64_t solo_id(const ContentHash& hash) {
  return static_cast<std::int64_t>(hash.high & static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max()));
}

SoloWriter::SoloWriter(Connection& connection)
    : solo_(connection, "INSERT INTO solos VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)"),
      chord_(connection, "INSERT INTO chords VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8)"),
      note_(connection, "INSERT INTO notes VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14)"),
      arpeggio_(connection, "INSERT INTO arpeggios VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13)"),
      connection_(connection, "INSERT INTO connections VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10)"),
      cell_(connection, "INSERT INTO cells VALUES (?1, ?2, ?3, ?4, ?5)"),
      figure_(connection, "INSERT INTO figures VALUES (?1, ?2, ?3, ?4, ?5)") {
  connection.run("PRAGMA foreign_keys = OFF");
  for (const char* table : {"chords", "notes", "arpeggios", "connections", "cells", "figures", "files"})
    drops_.emplace_back(connection, fmt::format("DELETE FROM {} WHERE solo = ?1", table));
  drops_.emplace_back(connection, "DELETE FROM solos WHERE id = ?1");
}

void SoloWriter::drop(std::int64_t id) {
  for (Statement& statement : drops_) statement.bind(1, id).run();
}

void SoloWriter::write(const StoredSolo& solo, const SoloRows& rows) {
  if (!fit_together(rows))
    throw DatabaseError(solo.place.path + ": its rows name a chord or a note that it does not have; please report it");
  const std::int64_t id = solo_id(solo.hash);
  solo_.bind(1, id).bind(2, to_string(solo.hash)).bind(3, solo.place.path).bind(4, solo.place.folder);
  solo_.bind(5, solo.place.player).bind(6, rows.title).bind(7, rows.part).bind(8, rows.bars).bind(9, rows.choruses);
  solo_.bind(10, rows.notes.size()).bind(11, solo.made_with).run();
  write_chords(id, rows);
  write_notes(id, rows);
  write_arpeggios(id, rows);
  write_connections(id, rows);
  write_counts(id, rows);
}

void SoloWriter::write_chords(std::int64_t id, const SoloRows& rows) {
  for (std::size_t i = 0; i < rows.chords.size(); ++i) {
    const ChordEntry& chord = rows.chords[i];
    chord_.bind(1, id).bind(2, i).bind(3, chord.symbol).bind(4, chord.quality).bind(5, chord.onset);
    chord_.bind(6, chord.duration).bind(7, chord.bar).bind(8, chord.chorus).run();
  }
}

void SoloWriter::write_notes(std::int64_t id, const SoloRows& rows) {
  for (std::size_t i = 0; i < rows.notes.size(); ++i) {
    const NoteEntry& note = rows.notes[i];
    note_.bind(1, id).bind(2, i).bind(3, note.bar).bind(4, note.onset).bind(5, note.duration).bind(6, note.midi);
    note_.bind_lasting(7, note.name).bind(8, note.chord).bind(9, note.governor).bind_lasting(10, note.degree);
    note_.bind_lasting(11, word<Role, Role::no_chord>(note.role));
    note_.bind_lasting(12, word<Figure, Figure::none>(note.figure));
    note_.bind_lasting(13, word<Placement, Placement::retardation>(note.placement));
    note_.bind(14, note.confidence).run();
  }
}

void SoloWriter::write_arpeggios(std::int64_t id, const SoloRows& rows) {
  for (std::size_t i = 0; i < rows.arpeggios.size(); ++i) {
    const ArpeggioEntry& run = rows.arpeggios[i];
    arpeggio_.bind(1, id).bind(2, i).bind(3, run.first_note).bind(4, run.chord).bind(5, run.shape);
    arpeggio_.bind(6, to_string(run.direction)).bind(7, to_string(run.inversion)).bind(8, run.notes);
    arpeggio_.bind(9, run.ornaments).bind(10, run.complete ? 1 : 0).bind(11, run.straight_descent ? 1 : 0);
    arpeggio_.bind(12, run.legs_up).bind(13, run.legs_down).run();
  }
}

void SoloWriter::write_connections(std::int64_t id, const SoloRows& rows) {
  for (std::size_t i = 0; i < rows.connections.size(); ++i) {
    const ConnectionEntry& entry = rows.connections[i];
    connection_.bind(1, id).bind(2, i).bind(3, entry.from_chord).bind(4, entry.to_chord);
    connection_.bind(5, entry.from_note).bind(6, entry.to_note).bind(7, entry.semitones);
    connection_.bind(8, to_string(entry.kind)).bind(9, entry.guide_tone ? 1 : 0);
    if (entry.took_nearest)
      connection_.bind(10, *entry.took_nearest ? 1 : 0);
    else
      connection_.bind_nothing(10);
    connection_.run();
  }
}

void SoloWriter::write_counts(std::int64_t id, const SoloRows& rows) {
  for (const CellEntry& cell : rows.cells)
    cell_.bind(1, id)
        .bind(2, cell.degrees)
        .bind(3, to_string(cell.direction))
        .bind(4, cell.quality)
        .bind(5, cell.count)
        .run();
  for (const FigureEntry& figure : rows.figures)
    figure_.bind(1, id).bind(2, figure.key).bind(3, figure.part).bind(4, figure.whole).bind(5, figure.value).run();
}

}  // namespace insideline::io
