#!/bin/sh
# survey_kills.sh PROGRAM CORPUS DATA
#
# Kills a survey at 50 moments. After each the database must be sound and must have lost nothing that was in it;
# the run that is let through must end with the rows of a survey that nobody disturbed.
set -eu
program=$1
DATA=$3
. "$(dirname "$0")/survey_solos.sh"
needs sqlite3 timeout

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
solos solos 150
"$program" survey solos --db whole.db >/dev/null
rows whole.db >whole

before=0
interrupted=0
fresh=0
for moment in $(seq 1 50); do
  # From 2 to 80 milliseconds in an order that is no order; the same in every run of this test.
  delay=$(printf '0.%03d' $((2 + moment * 37 % 79)))
  status=0
  timeout -s KILL "$delay" "$program" survey solos --db killed.db >/dev/null 2>&1 || status=$?
  [ "$status" = 0 ] || interrupted=$((interrupted + 1))
  [ -f killed.db ] || continue
  cp killed.db look.db
  [ ! -f killed.db-wal ] || cp killed.db-wal look.db-wal
  [ -z "$(sound look.db)" ] || fail "not sound after a kill at $delay s: $(sound look.db)"
  after=$(sqlite3 look.db 'SELECT count(*) FROM solos' 2>/dev/null || echo 0)
  rm -f look.db look.db-wal look.db-shm
  [ "$after" -ge "$before" ] || fail "a kill at $delay s lost solos: $before, then $after"
  before=$after
  if [ "$before" = 150 ]; then  # all is there: begin anew
    before=0
    fresh=$((fresh + 1))
    rm -f killed.db killed.db-wal
  fi
done
[ "$interrupted" -ge 25 ] || fail "only $interrupted of 50 runs were killed before their end"

"$program" survey solos --db killed.db >/dev/null
rows killed.db | cmp -s - whole || fail "a rerun does not complete to the same rows"
echo "killed $interrupted times, begun anew $fresh times"
