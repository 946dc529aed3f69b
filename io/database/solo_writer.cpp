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
      chords_(connection, "chords", 8),
      notes_(connection, "notes", 14),
      arpeggios_(connection, "arpeggios", 13),
      connections_(connection, "connections", 10),
      cells_(connection, "cells", 5),
      figures_(connection, "figures", 5) {
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
  chords_.write(rows.chords.size(), [&](NewRow row, std::size_t i) {
    const ChordEntry& chord = rows.chords[i];
    row.add(id).add(i).add_lasting(chord.symbol).add_lasting(chord.quality).add(chord.onset).add(chord.duration);
    row.add(chord.bar).add(chord.chorus);
  });
}

void SoloWriter::write_notes(std::int64_t id, const SoloRows& rows) {
  notes_.write(rows.notes.size(), [&](NewRow row, std::size_t i) {
    const NoteEntry& note = rows.notes[i];
    row.add(id).add(i).add(note.bar).add(note.onset).add(note.duration).add(note.midi).add_lasting(note.name);
    row.add(note.chord).add(note.governor).add_lasting(note.degree);
    row.add_lasting(word<Role, Role::no_chord>(note.role)).add_lasting(word<Figure, Figure::none>(note.figure));
    row.add_lasting(word<Placement, Placement::retardation>(note.placement)).add(note.confidence);
  });
}

void SoloWriter::write_arpeggios(std::int64_t id, const SoloRows& rows) {
  arpeggios_.write(rows.arpeggios.size(), [&](NewRow row, std::size_t i) {
    const ArpeggioEntry& run = rows.arpeggios[i];
    row.add(id).add(i).add(run.first_note).add(run.chord).add_lasting(run.shape).add(to_string(run.direction));
    row.add(to_string(run.inversion)).add(run.notes).add(run.ornaments).add(run.complete ? 1 : 0);
    row.add(run.straight_descent ? 1 : 0).add(run.legs_up).add(run.legs_down);
  });
}

void SoloWriter::write_connections(std::int64_t id, const SoloRows& rows) {
  connections_.write(rows.connections.size(), [&](NewRow row, std::size_t i) {
    const ConnectionEntry& entry = rows.connections[i];
    const std::optional<int> took_nearest =
        entry.took_nearest ? std::optional(*entry.took_nearest ? 1 : 0) : std::nullopt;
    row.add(id).add(i).add(entry.from_chord).add(entry.to_chord).add(entry.from_note).add(entry.to_note);
    row.add(entry.semitones).add(to_string(entry.kind)).add(entry.guide_tone ? 1 : 0).add(took_nearest);
  });
}

void SoloWriter::write_counts(std::int64_t id, const SoloRows& rows) {
  cells_.write(rows.cells.size(), [&](NewRow row, std::size_t i) {
    const CellEntry& cell = rows.cells[i];
    row.add(id).add_lasting(cell.degrees).add(to_string(cell.direction)).add_lasting(cell.quality).add(cell.count);
  });
  figures_.write(rows.figures.size(), [&](NewRow row, std::size_t i) {
    const FigureEntry& figure = rows.figures[i];
    row.add(id).add_lasting(figure.key).add(figure.part).add(figure.whole).add(figure.value);
  });
}

}  // namespace insideline::io
