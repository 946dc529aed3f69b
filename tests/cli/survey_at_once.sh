#!/bin/sh
# survey_at_once.sh PROGRAM CORPUS DATA
#
# Several programs with one database: none loses what another wrote, and who reads while a survey writes reads the last
# state.
set -eu
program=$1
DATA=$3
. "$(dirname "$0")/survey_solos.sh"
needs sqlite3

work=$(mktemp -d)
full=
trap 'if [ -n "$full" ]; then umount "$full"; fi; rm -rf "$work"' EXIT
cd "$work"

# Twenty takes into one practice log that is not there yet.
"$program" drill --changes "$DATA/quay_steps.changes" -o sheet.musicxml >/dev/null
pids=
for take in $(seq 1 20); do
  sed "s|<part-list>|<movement-title>Take $take</movement-title><part-list>|" sheet.musicxml >"take-$take.musicxml"
done
for take in $(seq 1 20); do
  "$program" assess "take-$take.musicxml" --against sheet.musicxml --day 2026-11-25 --log takes.log >"out-$take" 2>&1 &
  pids="$pids $!"
done
for pid in $pids; do wait "$pid" || fail "an assessment failed: $(cat out-*)"; done
[ "$(sqlite3 takes.log 'SELECT count(*) FROM takes')" = 20 ] || fail "of 20 takes the log has $(sqlite3 takes.log 'SELECT count(*) FROM takes')"

# A reader in the middle of a survey: a process that is stopped holds the database open.
solos solos 12
"$program" survey solos --db solos.db >/dev/null
solos more 400
"$program" survey solos more --db solos.db --jobs 1 >/dev/null &
survey=$!
tries=0
until [ -f solos.db-wal ] && [ "$(sqlite3 solos.db 'SELECT count(*) FROM solos')" -gt 12 ]; do
  tries=$((tries + 1))
  [ "$tries" -lt 600 ] || fail "the survey does not begin to store"
  sleep 0.05
done
kill -STOP "$survey"
[ -f solos.db-wal ] || fail "the survey was over before anybody could read"
"$program" analyze "$DATA/two_bars.musicxml" --against solos.db >read 2>&1 || fail "nothing can be read while a survey writes: $(cat read)"
grep -q 'solos of solos.db' read || fail "the reader reads nothing: $(cat read)"
"$program" survey --report --db solos.db --csv table.csv >read 2>&1 || fail "no report while a survey writes: $(cat read)"
kill -CONT "$survey"
wait "$survey" || fail "the survey was disturbed by readers"
[ "$(sqlite3 solos.db 'SELECT count(*) FROM solos')" = 400 ] || fail "solos are missing after readers: $(sqlite3 solos.db 'SELECT count(*) FROM solos')"
[ -z "$(sound solos.db)" ] || fail "the database is not sound after readers"

# Two surveys into one database at the same time.
"$program" survey solos --db both.db >/dev/null 2>first &
one=$!
"$program" survey more --db both.db >/dev/null 2>second || fail "the second survey failed: $(cat second)"
wait "$one" || fail "the first survey failed: $(cat first)"
[ "$(sqlite3 both.db 'SELECT count(*) FROM solos')" = 400 ] ||  # twelve are in both folders
  fail "two surveys at once lost solos: $(sqlite3 both.db 'SELECT count(*) FROM solos')"

# What a merge leaves behind where it cannot be done: nothing. Its parts are only read.
mkdir folder
"$program" survey solos --shard 1/2 --db folder/one.db >/dev/null
"$program" survey solos --shard 2/2 --db folder/two.db >/dev/null
echo "no database, and long enough to be looked at by whoever reads it, line after line" >folder/text.db
: >folder/empty.db
for other in text empty; do
  if "$program" merge folder/one.db folder/$other.db -o merged.db >out 2>&1; then fail "$other.db is merged"; fi
  grep -q "folder/$other.db" out || fail "it is not said that $other.db is the cause: $(cat out)"
  [ -z "$(find . -name '*merged.db*')" ] || fail "a merge that failed leaves something behind: $(find . -name '*merged.db*')"
  [ "$(wc -c <folder/empty.db)" = 0 ] || fail "an empty file was made a database"
done
parts=$(cksum folder/*)
merge_from() {  # FOLDER
  "$program" merge "$1/one.db" "$1/two.db" -o merged.db >out 2>&1 || fail "no merge out of a folder that may only be read: $(cat out)"
  [ "$(sqlite3 merged.db 'SELECT count(*) FROM solos')" = 12 ] || fail "solos are missing after that merge"
  [ "$parts" = "$(cksum folder/*)" ] || fail "a merge changed its parts"
}
if [ "$(id -u)" != 0 ]; then
  chmod 555 folder
  merge_from folder
  chmod 755 folder
elif mkdir closed && mount -t tmpfs -o size=4m tmpfs closed 2>/dev/null; then
  full=$work/closed
  cp folder/one.db folder/two.db closed
  mount -o remount,ro closed
  merge_from closed
  umount closed
  full=
else
  echo "left out: a folder that may only be read, as nothing can be mounted here"
fi

# A file that may not grow is like a full disk: it is said, and no half database is left.
limited() {  # BLOCKS-OF-512-BYTES FILE ARGUMENT...
  blocks=$1
  file=$2
  shift 2
  status=0
  words=$( (ulimit -f "$blocks" && exec "$program" "$@") 2>&1) || status=$?  # no file, which would be limited, too
  echo "$words" >out
  [ "$status" = 1 ] || fail "exit $status where the disk is full: $*: $(cat out)"
  grep -qi 'full\|too large' out || fail "a full disk is not said: $*: $(cat out)"
  [ -z "$(find . -name "*$file*")" ] || fail "a full disk leaves something behind: $*: $(find . -name "*$file*")"
}
limited 0 no.log assess take-1.musicxml --against sheet.musicxml --log no.log
limited 8 no.log assess take-1.musicxml --against sheet.musicxml --log no.log
limited 0 no.db survey solos --db no.db
limited 8 no.db survey solos --db no.db
limited 0 no.db merge folder/one.db folder/two.db -o no.db
limited 100 no.db merge folder/one.db folder/two.db -o no.db
limited 0 no.csv survey solos --csv no.csv
