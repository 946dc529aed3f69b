#include "io/database/solo_writer.hpp"

#include "io/database/json_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <limits>
#include <optional>

namespace insideline::io {
namespace {

/// The words for all values of an enumeration, made once.
template <typename Kind, Kind last>
const std::string& word(Kind kind) {
  static const auto words = [] {
    std::array<std::string, static_cast<std::size_t>(last) + 1> all;
    for (std::size_t i = 0; i < all.size(); ++i) all.at(i) = to_string(static_cast<Kind>(i));
    return all;
  }();
  return words.at(static_cast<std::size_t>(kind));
}

/// What the tables cannot say of lists: every chord and note that is named is there.
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

constexpr double confidence_parts = 10'000;  // a claim of more places would be idle

std::string chords_of(const SoloRows& rows) {
  return json_rows(rows.chords, [](JsonRow row, const ChordEntry& chord) {
    row.add(chord.symbol).add(chord.quality).add(chord.onset).add(chord.duration).add(chord.bar).add(chord.chorus);
  });
}

std::string notes_of(const SoloRows& rows) {
  return json_rows(rows.notes, [](JsonRow row, const NoteEntry& note) {
    row.add(note.bar).add(note.onset).add(note.duration).add(note.midi).add(note.name);
    row.add(note.chord).add(note.governor).add(note.degree);
    row.add(static_cast<int>(note.role)).add(static_cast<int>(note.figure)).add(static_cast<int>(note.placement));
    row.add(std::round(note.confidence * confidence_parts) / confidence_parts);
  });
}

std::string arpeggios_of(const SoloRows& rows) {
  return json_rows(rows.arpeggios, [](JsonRow row, const ArpeggioEntry& run) {
    row.add(run.first_note).add(run.chord).add(run.shape).add(word<Direction, Direction::mixed>(run.direction));
    row.add(word<Inversion, Inversion::none>(run.inversion)).add(run.notes).add(run.ornaments).add(run.complete);
    row.add(run.straight_descent).add(run.legs_up).add(run.legs_down);
  });
}

std::string connections_of(const SoloRows& rows) {
  return json_rows(rows.connections, [](JsonRow row, const ConnectionEntry& entry) {
    row.add(entry.from_chord).add(entry.to_chord).add(entry.from_note).add(entry.to_note).add(entry.semitones);
    row.add(word<ConnectionKind, ConnectionKind::none>(entry.kind)).add(entry.guide_tone).add(entry.took_nearest);
  });
}

std::string cells_of(const SoloRows& rows) {
  return json_rows(rows.cells, [](JsonRow row, const CellEntry& cell) {
    row.add(cell.degrees).add(word<Direction, Direction::mixed>(cell.direction)).add(cell.quality).add(cell.count);
  });
}

std::string figures_of(const SoloRows& rows) {
  return named_json_rows(
      rows.figures, [](const FigureEntry& figure) -> const std::string& { return figure.key; },
      [](JsonRow row, const FigureEntry& figure) { row.add(figure.part).add(figure.whole); });
}

}  // namespace

std::int64_t solo_id(const ContentHash& hash) {
  return static_cast<std::int64_t>(hash.high & static_cast<std::uint64_t>(std::numeric_limits<std::int64_t>::max()));
}

SoloTexts solo_texts(const SoloRows& rows, const std::string& path) {
  if (!fit_together(rows))
    throw DatabaseError(path + ": its rows name a chord or a note that it does not have; please report it");
  return {.title = rows.title,
          .part = rows.part,
          .bars = rows.bars,
          .choruses = rows.choruses,
          .note_count = rows.notes.size(),
          .figures = figures_of(rows),
          .cells = cells_of(rows),
          .arpeggios = arpeggios_of(rows),
          .connections = connections_of(rows),
          .chords = chords_of(rows),
          .notes = notes_of(rows)};
}

SoloWriter::SoloWriter(Connection& connection)
    : solo_(connection, "INSERT INTO solos VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11)"),
      lists_(connection, "INSERT INTO lists VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7)") {
  connection.run("PRAGMA foreign_keys = OFF");
  for (const char* table : {"lists", "files"})
    drops_.emplace_back(connection, fmt::format("DELETE FROM {} WHERE solo = ?1", table));
  drops_.emplace_back(connection, "DELETE FROM solos WHERE id = ?1");
}

void SoloWriter::drop(std::int64_t id) {
  for (Statement& statement : drops_) statement.bind(1, id).run();
}

void SoloWriter::write(const StoredSolo& solo, const SoloTexts& texts) {
  const std::int64_t id = solo_id(solo.hash);
  solo_.bind(1, id).bind(2, to_string(solo.hash)).bind(3, solo.place.path).bind(4, solo.place.folder);
  solo_.bind(5, solo.place.player).bind(6, texts.title).bind(7, texts.part).bind(8, texts.bars);
  solo_.bind(9, texts.choruses).bind(10, texts.note_count).bind(11, solo.made_with).run();
  int place = 1;
  lists_.bind(place, id);
  for (const std::string* text :
       {&texts.figures, &texts.cells, &texts.arpeggios, &texts.connections, &texts.chords, &texts.notes})
    lists_.bind_lasting(++place, *text);
  lists_.run();
}

}  // namespace insideline::io
