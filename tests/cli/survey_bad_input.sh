#!/bin/sh
# survey_bad_input.sh PROGRAM CORPUS DATA
#
# What a disk full of odd things does to a survey: it goes on, says what was wrong, and loses nothing.
set -eu
program=$1
DATA=$3
. "$(dirname "$0")/survey_solos.sh"
needs sqlite3

work=$(mktemp -d)
full=
trap 'if [ -n "$full" ]; then umount "$full"; fi; rm -rf "$work"' EXIT
cd "$work"
skipped=0

said() {  # TEXT: the last run said it, on whatever lines
  tr '\n' ' ' <out | tr -s ' ' | grep -qF "$1" || fail "not said: $1
$(cat out)"
}

solos solos 6
ln -s .. "solos/player 0/round"
ln -s "solo-3.musicxml" "solos/player 0/link.musicxml"
ln -s nowhere.musicxml solos/dangling.musicxml
ln "solos/player 1/solo-1.musicxml" solos/hard-link.musicxml
newline=$(printf "it's \"a\"\nsolo; DROP TABLE solos.musicxml")
sed 's|<work-title>[^<]*|<work-title>Other|' "$DATA/two_bars.musicxml" >"solos/$newline"
echo '<settings/>' >solos/settings.xml
echo 'no score' >solos/broken.mxl
: >solos/empty.mid
head -c 300 "$DATA/two_bars.musicxml" >solos/cut.musicxml
"$program" survey solos --db odd.db >out 2>err || fail "the survey stopped: $(cat err)"
[ "$(sqlite3 odd.db 'SELECT count(*) FROM solos')" = 7 ] || fail "not 7 solos"
[ "$(sqlite3 odd.db "SELECT count(*) FROM solos WHERE path = 'solos/' || 'it''s \"a\"' || char(10) || 'solo; DROP TABLE solos.musicxml'")" = 1 ] ||
  fail "a name with quotes and a line break is not kept"
said "Not used: 4 files"
said "solos/dangling.musicxml: the link leads nowhere"
said "solos/empty.mid: the file is empty"
said "solos/player 1/solo-1.musicxml is the same as solos/hard-link.musicxml"
said "solos/player 0/solo-3.musicxml is the same as solos/player 0/link.musicxml"
said "1 no score"
if "$program" survey solos --db odd.db --fail-on-error >out 2>err; then fail "--fail-on-error ends with 0"; fi
said "of them 7 unchanged"

(cd solos && "$program" survey . --db ../here.db >/dev/null && "$program" survey ../solos/ --db ../slash.db >/dev/null)
[ "$(sqlite3 here.db "SELECT group_concat(DISTINCT player) FROM (SELECT player FROM solos ORDER BY player)")" = "player 0,player 1,player 2,solos" ] ||
  fail "players of '.': $(sqlite3 here.db 'SELECT DISTINCT player FROM solos')"
[ "$(sqlite3 slash.db "SELECT count(*) FROM solos WHERE player = 'solos'")" = "$(sqlite3 here.db "SELECT count(*) FROM solos WHERE player = 'solos'")" ] ||
  fail "a slash behind the folder matters"

# A file that changes takes the place of what it was; others are not touched.
sed 's|<work-title>[^<]*|<work-title>Anew|' "$DATA/two_bars.musicxml" >"solos/player 2/solo-2.musicxml"
"$program" survey solos --db odd.db >out 2>err
said "1 analysed now, 6 unchanged"
[ "$(sqlite3 odd.db "SELECT group_concat(title) FROM solos WHERE path LIKE '%solo-2.%'")" = Anew ] || fail "the changed file has not taken its place"
[ "$(sqlite3 odd.db 'SELECT count(*) FROM solos')" = 7 ] || fail "a changed file is counted twice"

refused() {  # DATABASE TEXT
  before=$(cksum <"$1")
  if "$program" survey solos --db "$1" >out 2>&1; then fail "$1 is not refused"; fi
  said "$2"
  [ "$before" = "$(cksum <"$1")" ] || fail "$1 was touched"
}
sqlite3 odd.db 'BEGIN EXCLUSIVE' ".shell '$program' survey solos --db odd.db >out 2>&1 || echo refused >>out"
said "another program is using it; wait for it to end refused"

sqlite3 other.db 'PRAGMA application_id = 7; CREATE TABLE bills (due)'
refused other.db "this is the database of another program"
cp odd.db newer.db
sqlite3 newer.db 'PRAGMA user_version = 99'
refused newer.db "a newer version of insideline made this database"
echo "only a text, and long enough to be looked at by whoever reads it" >text.db
refused text.db "it is no database"
if "$program" merge odd.db nowhere.db -o m.db >out 2>&1; then fail "a missing database is merged"; fi
said "there is no such database"
"$program" survey solos --strict --db strict.db >/dev/null
if "$program" merge odd.db strict.db -o m.db >out 2>&1; then fail "different options are merged"; fi
said "analysed in another way"

# Version 1 had tables where lists are today, no table of files, other fingerprints, and arpeggios by whole fragments; its
# solos are read anew.
cp odd.db old.db
for table in chords notes arpeggios connections cells figures; do
  sqlite3 old.db "CREATE TABLE old AS SELECT * FROM $table; DROP VIEW $table; ALTER TABLE old RENAME TO $table"
done
sqlite3 old.db 'DROP TABLE lists; DROP TABLE files; ALTER TABLE arpeggios DROP legs_up; ALTER TABLE arpeggios DROP legs_down; ALTER TABLE arpeggios RENAME straight_descent TO unprepared_descent; PRAGMA user_version = 1'
"$program" survey solos --db old.db >out
said "of them 7 analysed now"
[ "$(sqlite3 old.db 'PRAGMA user_version')" = 6 ] || fail "the version of the tables stays old"
rows odd.db >rows
rows old.db | cmp -s - rows || fail "an old database does not come to hold what a new one does"

if [ "$(id -u)" = 0 ]; then
  mkdir small
  if mount -t tmpfs -o size=200k tmpfs small 2>/dev/null; then
    full=$work/small
    solos many 60
    if "$program" survey many --db small/full.db >out 2>&1; then fail "a full disk is not noticed"; fi
    grep -qi 'full' out || fail "a full disk is not said: $(cat out)"
    cp small/full.db* .
    [ -z "$(sound full.db)" ] || fail "the database on the full disk is not sound"
    "$program" survey many --db full.db >out
    [ "$(sqlite3 full.db 'SELECT count(*) FROM solos')" = 60 ] || fail "what was stored on the full disk cannot be completed"
  else
    skipped=$((skipped + 1))
  fi
else
  skipped=$((skipped + 1))
  mkdir solos/closed
  chmod 0 solos/closed
  "$program" survey solos --db odd.db >out
  said "solos/closed: the folder cannot be read"
  chmod 700 solos/closed
fi
echo "checks left out for want of rights: $skipped"
