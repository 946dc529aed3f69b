#!/bin/sh
# log_at_once.sh PROGRAM CORPUS DATA
#
# A class that hands in at the same moment: twenty programs write into one practice log, new or old, while others read it.
# No take is lost and nobody is turned away.
set -eu
program=$1
DATA=$3
command -v sqlite3 >/dev/null || {
  echo "skipped: sqlite3 is not installed"
  exit 77
}

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

fail() {
  echo "FAILED: $1"
  exit 1
}

"$program" drill --changes "$DATA/quay_steps.changes" -o sheet.musicxml >/dev/null
for take in 1 2; do
  sed "s|<part-list>|<movement-title>Take $take</movement-title><part-list>|" sheet.musicxml >"take-$take.musicxml"
done

# hand_in LOG: ten players with two takes each, all at once
hand_in() {
  pids=
  for number in $(seq 0 19); do
    take=$((number % 2 + 1))
    "$program" assess "take-$take.musicxml" --against sheet.musicxml --day 2026-11-25 --log "$1" \
      --player "O'Player \"$((number / 2))\"" >"out-$number" 2>&1 &
    pids="$pids $!"
  done
  for pid in $pids; do wait "$pid" || fail "a take was turned away: $(cat out-*)"; done
}

# expect LOG SQL NUMBER
expect() {
  found=$(sqlite3 "$1" "$2")
  [ "$found" = "$3" ] || fail "$1: '$2' gives $found and not $3"
}

hand_in new.log
expect new.log 'SELECT count(*) FROM takes' 20
expect new.log 'SELECT count(DISTINCT player) FROM takes' 10
expect new.log 'PRAGMA integrity_check' ok

# The same again takes the place of what is there.
hand_in new.log
expect new.log 'SELECT count(*) FROM takes' 20

# A log of the first version is brought up to date by one of them, and keeps what it has.
sqlite3 old.log "
  CREATE TABLE takes (content_hash TEXT PRIMARY KEY, day TEXT NOT NULL, sheet TEXT NOT NULL, take TEXT NOT NULL,
    tempo_bpm REAL, right_notes INTEGER NOT NULL, all_notes INTEGER NOT NULL, right_up INTEGER NOT NULL,
    all_up INTEGER NOT NULL, right_down INTEGER NOT NULL, all_down INTEGER NOT NULL, restarts INTEGER NOT NULL,
    spread_percent REAL) WITHOUT ROWID;
  CREATE INDEX takes_by_sheet ON takes (sheet, day);
  INSERT INTO takes VALUES ('a', '2026-11-20', 'Ropewalk (r.mid)', 'r.mid', 72, 90, 96, 0, 0, 0, 0, 0, NULL);
  PRAGMA application_id = 1229738060; PRAGMA user_version = 1;"
hand_in old.log
expect old.log 'SELECT count(*) FROM takes' 21
expect old.log "SELECT count(*) FROM takes WHERE day = '2026-11-20' AND player = '' AND right_notes = 90" 1
expect old.log 'PRAGMA user_version' 3
expect old.log 'PRAGMA integrity_check' ok

# Whoever reads while others write gets the log as it was at one moment.
hand_in read.log
for reader in 1 2 3 4 5; do
  "$program" log read.log --csv "read-$reader.csv" >"said-$reader" 2>&1 || fail "it cannot be read: $(cat "said-$reader")" &
done
hand_in read.log
wait
for reader in 1 2 3 4 5; do
  [ "$(wc -l <"read-$reader.csv")" = 21 ] || fail "reader $reader has another number of takes: $(cat "said-$reader")"
done

# What is no practice log is said in one line and left as it is.
sqlite3 newer.log "CREATE TABLE takes (day TEXT); PRAGMA application_id = 1229738060; PRAGMA user_version = 99"
sqlite3 other.log "CREATE TABLE birds (name TEXT); INSERT INTO birds VALUES ('tern')"
"$program" survey "$DATA/two_bars.musicxml" --db collection.log >/dev/null
echo "no database, and long enough to be looked at by whoever reads it, line after line" >text.log
mkdir folder.log
: >empty.log

# refused LOG WORDS ARGUMENT...
refused() {
  log=$1
  words=$2
  shift 2
  before=$(cksum ./*.log 2>/dev/null)
  status=0
  "$program" "$@" >out 2>&1 || status=$?
  [ "$status" = 1 ] || fail "exit $status and not 1: $*: $(cat out)"
  [ "$(grep -c '^insideline: error: ' out)" = 1 ] || fail "not one error: $*: $(cat out)"
  grep -q "$log" out || fail "the log is not named: $*: $(cat out)"
  grep -q "$words" out || fail "not '$words': $*: $(cat out)"
  [ "$before" = "$(cksum ./*.log 2>/dev/null)" ] || fail "a file was touched: $*"
}

while read -r log words; do
  refused "$log" "$words" log "$log"
  refused "$log" "$words" log "$log" --json out.json
  [ ! -e out.json ] || fail "half a result of $log"
  [ "$log" = empty.log ] || [ "$log" = folder.log ] || [ "$log" = none.log ] ||
    refused "$log" "$words" assess take-1.musicxml --against sheet.musicxml --log "$log"
done <<LOGS
newer.log newer version
other.log not a practice log
collection.log not a practice log
text.log no database
empty.log it is empty
folder.log no such practice log
none.log no such practice log
LOGS
[ ! -e none.log ] || fail "a log was made by reading"
