#include "io/database/schema.hpp"

#include <fmt/format.h>

#include <array>

namespace insideline::io {
namespace {

// A solo's number comes from what it holds and not from when it was stored, so that databases made apart can be put
// together. Rows of a solo go with it: ON DELETE CASCADE.
constexpr const char* first_tables = R"sql(
CREATE TABLE solos (
  id        INTEGER PRIMARY KEY,   -- the first 63 bits of content_hash
  content_hash TEXT NOT NULL UNIQUE, -- of the solo and its changes: 32 hexadecimal digits
  path      TEXT NOT NULL,         -- as surveyed; the first in order where the same solo lies in several places
  folder    TEXT NOT NULL,         -- the folder that holds it
  player    TEXT NOT NULL,         -- the first folder below the one surveyed
  title     TEXT NOT NULL,
  part      TEXT NOT NULL,         -- the part or track that was read
  bars      INTEGER NOT NULL,
  choruses  INTEGER NOT NULL,
  note_count INTEGER NOT NULL,
  made_with TEXT NOT NULL          -- version of the program and all options that change a result
);
CREATE INDEX solos_by_path ON solos (path);
CREATE INDEX solos_by_player ON solos (player);

CREATE TABLE chords (              -- what sounds under the solo, one row a chord
  solo      INTEGER NOT NULL REFERENCES solos (id) ON DELETE CASCADE,
  number    INTEGER NOT NULL,      -- from 0, in order
  symbol    TEXT NOT NULL,         -- as written
  quality   TEXT NOT NULL,         -- major, minor, dominant ...
  onset     REAL NOT NULL,         -- quarter notes from bar 1
  duration  REAL NOT NULL,         -- quarter notes
  bar       INTEGER NOT NULL,
  chorus    INTEGER NOT NULL,
  PRIMARY KEY (solo, number)
) WITHOUT ROWID;

CREATE TABLE notes (
  solo      INTEGER NOT NULL REFERENCES solos (id) ON DELETE CASCADE,
  number    INTEGER NOT NULL,      -- from 0, in order: n5 of the analysis file is 5 here
  bar       INTEGER NOT NULL,
  onset     REAL NOT NULL,         -- quarter notes from bar 1; below 0 in a pickup
  duration  REAL NOT NULL,         -- quarter notes; 0 for a grace note
  midi      INTEGER NOT NULL,      -- sounding pitch, 60 is middle C
  name      TEXT NOT NULL,         -- sounding pitch, spelled
  chord     INTEGER,               -- sounding at the onset
  governor  INTEGER,               -- the chord it is heard against
  degree    TEXT NOT NULL,         -- against the governor; empty where there is none
  role      TEXT NOT NULL,         -- chord tone, tension, non-chord tone, outside, no chord
  figure    TEXT NOT NULL,         -- root, third, passing tone, enclosure ...
  placement TEXT NOT NULL,         -- in place, anticipation, suspension, retardation
  confidence REAL NOT NULL,        -- of the whole label, 0 to 1
  PRIMARY KEY (solo, number),
  FOREIGN KEY (solo, chord) REFERENCES chords (solo, number),
  FOREIGN KEY (solo, governor) REFERENCES chords (solo, number)
) WITHOUT ROWID;

CREATE TABLE arpeggios (
  solo      INTEGER NOT NULL REFERENCES solos (id) ON DELETE CASCADE,
  number    INTEGER NOT NULL,
  first_note INTEGER NOT NULL,
  chord     INTEGER NOT NULL,      -- the chord it runs through
  shape     TEXT NOT NULL,         -- its degrees as played: 3-5-b7
  direction TEXT NOT NULL,         -- ascending, descending, mixed
  inversion TEXT NOT NULL,         -- by its lowest note
  members   INTEGER NOT NULL,      -- notes of the chord in it
  ornaments INTEGER NOT NULL,      -- approach notes between them
  complete  INTEGER NOT NULL,      -- 1: every tone of the chord is there
  unprepared_descent INTEGER NOT NULL, -- 1: comes straight down
  PRIMARY KEY (solo, number),
  FOREIGN KEY (solo, chord) REFERENCES chords (solo, number),
  FOREIGN KEY (solo, first_note) REFERENCES notes (solo, number)
) WITHOUT ROWID;

CREATE TABLE connections (         -- how the line connects the chords at a change
  solo      INTEGER NOT NULL REFERENCES solos (id) ON DELETE CASCADE,
  number    INTEGER NOT NULL,
  from_chord INTEGER NOT NULL,
  to_chord  INTEGER NOT NULL,
  from_note INTEGER,               -- the last note heard against the old chord
  to_note   INTEGER,               -- the first heard against the new one
  semitones INTEGER,               -- from the one to the other, up above 0
  kind      TEXT NOT NULL,         -- common tone, half step, whole step, third, leap, none
  guide_tone INTEGER NOT NULL,     -- 1: seventh to third or third to seventh
  took_nearest INTEGER,            -- 1: the nearest tone of the new chord
  PRIMARY KEY (solo, number),
  FOREIGN KEY (solo, from_chord) REFERENCES chords (solo, number),
  FOREIGN KEY (solo, to_chord) REFERENCES chords (solo, number),
  FOREIGN KEY (solo, from_note) REFERENCES notes (solo, number),
  FOREIGN KEY (solo, to_note) REFERENCES notes (solo, number)
) WITHOUT ROWID;

CREATE TABLE cells (               -- two or three notes in a row on tones of one chord
  solo      INTEGER NOT NULL REFERENCES solos (id) ON DELETE CASCADE,
  degrees   TEXT NOT NULL,         -- 3-5
  direction TEXT NOT NULL,
  quality   TEXT NOT NULL,         -- of the chord
  count     INTEGER NOT NULL,
  PRIMARY KEY (solo, degrees, direction, quality)
) WITHOUT ROWID;

CREATE TABLE figures (             -- the figures that solos are compared by
  solo      INTEGER NOT NULL REFERENCES solos (id) ON DELETE CASCADE,
  figure    TEXT NOT NULL,         -- chord_tones_on_beat ...
  part      REAL NOT NULL,         -- what was counted
  whole     REAL NOT NULL,         -- of how much
  value     REAL,                  -- part / whole; nothing where whole is 0
  PRIMARY KEY (solo, figure)
) WITHOUT ROWID;
)sql";

constexpr const char* known_files = R"sql(
CREATE TABLE files (               -- every file that was read, so that it need not be read again
  path      TEXT PRIMARY KEY,
  stamp     TEXT NOT NULL,         -- size and time of the solo and of its changes file when it was read
  solo      INTEGER NOT NULL REFERENCES solos (id) ON DELETE CASCADE
) WITHOUT ROWID;
CREATE INDEX files_by_solo ON files (solo);
)sql";

// A descent that comes straight down had another name first.
constexpr const char* straight_descents = R"sql(
ALTER TABLE arpeggios RENAME COLUMN unprepared_descent TO straight_descent;
UPDATE figures SET figure = 'straight_descents' WHERE figure = 'unprepared_descents';
)sql";

// Up and down were counted by whole fragments first, and solos had another fingerprint. One that was stored then was
// made another way: the next survey reads it anew, and it is not put together with databases where it would be there
// twice.
constexpr const char* legs = R"sql(
ALTER TABLE arpeggios ADD COLUMN legs_up INTEGER NOT NULL DEFAULT 0 /* parts that go up through three members */;
ALTER TABLE arpeggios ADD COLUMN legs_down INTEGER NOT NULL DEFAULT 0 /* that come down; mixed: both, or none */;
UPDATE solos SET made_with = made_with || ', arpeggios by whole fragments';
)sql";

// A row for each note made storing and copying a solo dear. The views have the names and columns of the tables that
// were there before; that the rows of a solo refer to each other is looked after by who writes them.
constexpr const char* lists = R"sql(
CREATE TABLE lists (               -- what a solo has many of, in JSON; the views below show it as rows
  solo      INTEGER PRIMARY KEY REFERENCES solos (id) ON DELETE CASCADE,
  chords    TEXT NOT NULL,
  notes     TEXT NOT NULL,
  arpeggios TEXT NOT NULL,
  connections TEXT NOT NULL,
  cells     TEXT NOT NULL
);
INSERT INTO lists SELECT id,
  (SELECT json_group_array(json_array(symbol, quality, onset, duration, bar, chorus))
     FROM (SELECT * FROM chords WHERE solo = solos.id ORDER BY number)),
  (SELECT json_group_array(json_array(bar, onset, duration, midi, name, chord, governor, degree, role, figure,
                                      placement, confidence))
     FROM (SELECT * FROM notes WHERE solo = solos.id ORDER BY number)),
  (SELECT json_group_array(json_array(first_note, chord, shape, direction, inversion, members, ornaments, complete,
                                      straight_descent, legs_up, legs_down))
     FROM (SELECT * FROM arpeggios WHERE solo = solos.id ORDER BY number)),
  (SELECT json_group_array(json_array(from_chord, to_chord, from_note, to_note, semitones, kind, guide_tone,
                                      took_nearest))
     FROM (SELECT * FROM connections WHERE solo = solos.id ORDER BY number)),
  (SELECT json_group_array(json_array(degrees, direction, quality, count))
     FROM (SELECT * FROM cells WHERE solo = solos.id ORDER BY degrees, direction, quality))
FROM solos;
DROP TABLE connections;
DROP TABLE arpeggios;
DROP TABLE notes;
DROP TABLE chords;
DROP TABLE cells;
CREATE VIEW chords AS SELECT       -- what sounds under the solo, one row a chord
  lists.solo,
  item.key AS number,                                            -- from 0, in order
  json_extract(item.value, '$[0]') AS symbol,                    -- as written
  json_extract(item.value, '$[1]') AS quality,                   -- major, minor, dominant ...
  CAST(json_extract(item.value, '$[2]') AS REAL) AS onset,       -- quarter notes from bar 1
  CAST(json_extract(item.value, '$[3]') AS REAL) AS duration,    -- quarter notes
  json_extract(item.value, '$[4]') AS bar,
  json_extract(item.value, '$[5]') AS chorus
FROM lists, json_each(lists.chords) AS item;

CREATE VIEW notes AS SELECT
  lists.solo,
  item.key AS number,                                            -- from 0, in order: n5 of the analysis file is 5 here
  json_extract(item.value, '$[0]') AS bar,
  CAST(json_extract(item.value, '$[1]') AS REAL) AS onset,       -- quarter notes from bar 1; below 0 in a pickup
  CAST(json_extract(item.value, '$[2]') AS REAL) AS duration,    -- quarter notes; 0 for a grace note
  json_extract(item.value, '$[3]') AS midi,                      -- sounding pitch, 60 is middle C
  json_extract(item.value, '$[4]') AS name,                      -- sounding pitch, spelled
  json_extract(item.value, '$[5]') AS chord,                     -- sounding at the onset
  json_extract(item.value, '$[6]') AS governor,                  -- the chord it is heard against
  json_extract(item.value, '$[7]') AS degree,                    -- against the governor; empty where there is none
  json_extract(item.value, '$[8]') AS role,                      -- chord tone, tension, non-chord tone, outside ...
  json_extract(item.value, '$[9]') AS figure,                    -- root, third, passing tone, enclosure ...
  json_extract(item.value, '$[10]') AS placement,                -- in place, anticipation, suspension, retardation
  CAST(json_extract(item.value, '$[11]') AS REAL) AS confidence  -- of the whole label, 0 to 1
FROM lists, json_each(lists.notes) AS item;

CREATE VIEW arpeggios AS SELECT
  lists.solo,
  item.key AS number,
  json_extract(item.value, '$[0]') AS first_note,
  json_extract(item.value, '$[1]') AS chord,                     -- the chord it runs through
  json_extract(item.value, '$[2]') AS shape,                     -- its degrees as played: 3-5-b7
  json_extract(item.value, '$[3]') AS direction,                 -- ascending, descending, mixed
  json_extract(item.value, '$[4]') AS inversion,                 -- by its lowest note
  json_extract(item.value, '$[5]') AS members,                   -- notes of the chord in it
  json_extract(item.value, '$[6]') AS ornaments,                 -- approach notes between them
  json_extract(item.value, '$[7]') AS complete,                  -- 1: every tone of the chord is there
  json_extract(item.value, '$[8]') AS straight_descent,          -- 1: comes straight down
  json_extract(item.value, '$[9]') AS legs_up,                   -- parts that go up through three members
  json_extract(item.value, '$[10]') AS legs_down                 -- that come down; mixed: both, or none
FROM lists, json_each(lists.arpeggios) AS item;

CREATE VIEW connections AS SELECT  -- how the line connects the chords at a change
  lists.solo,
  item.key AS number,
  json_extract(item.value, '$[0]') AS from_chord,
  json_extract(item.value, '$[1]') AS to_chord,
  json_extract(item.value, '$[2]') AS from_note,                 -- the last note heard against the old chord
  json_extract(item.value, '$[3]') AS to_note,                   -- the first heard against the new one
  json_extract(item.value, '$[4]') AS semitones,                 -- from the one to the other, up above 0
  json_extract(item.value, '$[5]') AS kind,                      -- common tone, half step, whole step, third, leap ...
  json_extract(item.value, '$[6]') AS guide_tone,                -- 1: seventh to third or third to seventh
  json_extract(item.value, '$[7]') AS took_nearest               -- 1: the nearest tone of the new chord
FROM lists, json_each(lists.connections) AS item;

CREATE VIEW cells AS SELECT        -- two or three notes in a row on tones of one chord
  lists.solo,
  json_extract(item.value, '$[0]') AS degrees,                   -- 3-5
  json_extract(item.value, '$[1]') AS direction,
  json_extract(item.value, '$[2]') AS quality,                   -- of the chord
  json_extract(item.value, '$[3]') AS count
FROM lists, json_each(lists.cells) AS item;
)sql";

// Figures became a list as well. What is asked of every solo stands first, where it is read without the notes behind
// it. Role, figure and placement are numbers since, which the view tells in words; a database that is brought over
// keeps the words it has. The other views go on by the name of the table.
constexpr const char* short_lists = R"sql(
CREATE TABLE new_lists (           -- what a solo has many of, in JSON; the views show it as rows
  solo      INTEGER PRIMARY KEY REFERENCES solos (id) ON DELETE CASCADE,
  figures   TEXT NOT NULL,
  cells     TEXT NOT NULL,
  arpeggios TEXT NOT NULL,
  connections TEXT NOT NULL,
  chords    TEXT NOT NULL,
  notes     TEXT NOT NULL
);
INSERT INTO new_lists SELECT solo,
  (SELECT json_group_object(figure, json(printf('[%!.17g,%!.17g]', part, whole))) FROM figures
     WHERE figures.solo = lists.solo),
  cells, arpeggios, connections, chords, notes
FROM lists;
DROP VIEW notes;
DROP TABLE figures;
DROP TABLE lists;
PRAGMA legacy_alter_table = ON;
ALTER TABLE new_lists RENAME TO lists;
PRAGMA legacy_alter_table = OFF;

CREATE VIEW figures AS SELECT      -- the figures that solos are compared by
  lists.solo,
  item.key AS figure,                                            -- chord_tones_on_beat ...
  CAST(json_extract(item.value, '$[0]') AS REAL) AS part,        -- what was counted
  CAST(json_extract(item.value, '$[1]') AS REAL) AS whole,       -- of how much
  CAST(json_extract(item.value, '$[0]') AS REAL) /
    CAST(json_extract(item.value, '$[1]') AS REAL) AS value      -- nothing where whole is 0
FROM lists, json_each(lists.figures) AS item;

CREATE VIEW notes AS SELECT
  lists.solo,
  item.key AS number,                                            -- from 0, in order: n5 of the analysis file is 5 here
  json_extract(item.value, '$[0]') AS bar,
  CAST(json_extract(item.value, '$[1]') AS REAL) AS onset,       -- quarter notes from bar 1; below 0 in a pickup
  CAST(json_extract(item.value, '$[2]') AS REAL) AS duration,    -- quarter notes; 0 for a grace note
  json_extract(item.value, '$[3]') AS midi,                      -- sounding pitch, 60 is middle C
  json_extract(item.value, '$[4]') AS name,                      -- sounding pitch, spelled
  json_extract(item.value, '$[5]') AS chord,                     -- sounding at the onset
  json_extract(item.value, '$[6]') AS governor,                  -- the chord it is heard against
  json_extract(item.value, '$[7]') AS degree,                    -- against the governor; empty where there is none
  CASE json_extract(item.value, '$[8]')
    WHEN 0 THEN 'chord tone' WHEN 1 THEN 'tension' WHEN 2 THEN 'non-chord tone' WHEN 3 THEN 'outside'
    WHEN 4 THEN 'no chord'
    ELSE json_extract(item.value, '$[8]') END AS role,                   -- what it is to the chord
  CASE json_extract(item.value, '$[9]')
    WHEN 0 THEN 'root' WHEN 1 THEN 'second' WHEN 2 THEN 'third' WHEN 3 THEN 'fourth' WHEN 4 THEN 'fifth'
    WHEN 5 THEN 'sixth' WHEN 6 THEN 'seventh' WHEN 7 THEN 'ninth' WHEN 8 THEN 'eleventh'
    WHEN 9 THEN 'thirteenth' WHEN 10 THEN 'passing tone' WHEN 11 THEN 'neighbour tone'
    WHEN 12 THEN 'double neighbour' WHEN 13 THEN 'approach tone' WHEN 14 THEN 'enclosure'
    WHEN 15 THEN 'appoggiatura' WHEN 16 THEN 'escape tone' WHEN 17 THEN 'pedal' WHEN 18 THEN 'unexplained'
    WHEN 19 THEN 'none'
    ELSE json_extract(item.value, '$[9]') END AS figure,                 -- what it does there
  CASE json_extract(item.value, '$[10]')
    WHEN 0 THEN 'in place' WHEN 1 THEN 'anticipation' WHEN 2 THEN 'suspension' WHEN 3 THEN 'retardation'
    ELSE json_extract(item.value, '$[10]') END AS placement,             -- early, late or in its place
  CAST(json_extract(item.value, '$[11]') AS REAL) AS confidence  -- of the whole label, 0 to 1
FROM lists, json_each(lists.notes) AS item;
)sql";

constexpr std::array<const char*, schema_version> steps{first_tables, known_files, straight_descents,
                                                        legs,         lists,       short_lists};

/// 0 for a new database. Throws where it is none of ours.
int stored_version(Connection& connection, Access access) {
  const auto id = connection.number("PRAGMA application_id");
  const auto version = connection.number("PRAGMA user_version");
  if (connection.number("SELECT count(*) FROM sqlite_master") == 0) {
    if (access == Access::write) return 0;
    throw DatabaseError(connection.name() + ": it is empty; make it with `insideline survey FOLDER --db FILE`");
  }
  if (id != application_id)
    throw DatabaseError(connection.name() + ": this is the database of another program; give another name");
  if (version > schema_version)
    throw DatabaseError(
        fmt::format("{}: a newer version of insideline made this database (tables of version {}, this program knows "
                    "{}); use that version, or give another name",
                    connection.name(), version, schema_version));
  return static_cast<int>(version);
}

}  // namespace

const char* schema_step(int from) { return steps.at(static_cast<std::size_t>(from)); }

void prepare_schema(Connection& connection, Access access) {
  {
    const Transaction of_one_moment(connection, Hold::when_needed);
    if (stored_version(connection, access) == schema_version) return;
  }
  Transaction transaction(connection);
  // Another program may have done it while this one waited for its turn.
  for (int step = stored_version(connection, access); step < schema_version; ++step) connection.run(schema_step(step));
  connection.run(fmt::format("PRAGMA application_id = {}", application_id));
  connection.run(fmt::format("PRAGMA user_version = {}", schema_version));
  transaction.commit();
}

}  // namespace insideline::io
