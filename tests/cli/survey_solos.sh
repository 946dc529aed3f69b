# For the survey tests, to be read with `.`: makes solos and compares databases.

# solos FOLDER COUNT: COUNT different solos of two bars by three players, with their chords.
solos() {
  for number in $(seq 1 "$2"); do
    mkdir -p "$1/player $((number % 3))"
    sed "s|<work-title>[^<]*</work-title>|<work-title>Solo $number</work-title>|" "$DATA/two_bars.musicxml" \
      >"$1/player $((number % 3))/solo-$number.musicxml"
  done
}

# rows DATABASE: every row of every table, in order; what a file's clock says is left out.
rows() {
  for table in solos chords notes arpeggios connections cells figures; do
    echo "$table"
    sqlite3 "$1" "SELECT * FROM $table ORDER BY 1, 2, 3, 4"
  done
  sqlite3 "$1" "SELECT path, solo FROM files ORDER BY path"
}

sound() {  # DATABASE: empty where it is
  [ "$(sqlite3 "$1" 'PRAGMA integrity_check')" = ok ] || echo "integrity_check fails"
  sqlite3 "$1" 'PRAGMA foreign_key_check'
}

fail() {
  echo "FAILED: $1"
  exit 1
}

needs() {
  for tool in "$@"; do
    command -v "$tool" >/dev/null && continue
    echo "skipped: $tool is not installed"
    exit 77
  done
}
