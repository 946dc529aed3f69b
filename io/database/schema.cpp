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
  confidence REAL NOT NULL,        -- of the role, 0 to 1
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

constexpr std::array<const char*, schema_version> steps{first_tables, known_files, straight_descents, legs};

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
