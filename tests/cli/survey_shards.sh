#!/bin/sh
# survey_shards.sh PROGRAM CORPUS DATA SCRIPTS
#
# One survey, the same in four parts side by side with GNU parallel, and the same through the Slurm script with the
# variables that Slurm would set: the merged databases must equal the single one row for row, and no solo may lie in two parts.
set -eu
program=$1
CORPUS=$2
DATA=$3
scripts=$4
. "$(dirname "$0")/survey_solos.sh"
needs sqlite3 parallel

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"
solos solos 40
cp "$CORPUS"/*.musicxml solos
mkdir solos/again
cp "$CORPUS/ropewalk.musicxml" solos/again

"$program" survey solos --db whole.db --jobs 3 >/dev/null
rows whole.db >whole
[ "$(sqlite3 whole.db 'SELECT count(*) FROM solos')" = 49 ] || fail "the single run has not all 49 solos: $(sqlite3 whole.db 'SELECT count(*) FROM solos')"

"$program" survey solos --db one-job.db --jobs 1 >/dev/null
rows one-job.db | cmp -s - whole || fail "the rows depend on how many solos are worked on at a time"

parallel --will-cite -j 4 "$program" survey solos --db 'part-{}.db' --jobs 1 --shard '{}/4' ::: 1 2 3 4 >/dev/null
"$program" merge part-1.db part-2.db part-3.db part-4.db -o merged.db >/dev/null
rows merged.db | diff - whole >differences || fail "four parts do not add up: $(head -n 5 differences)"
sum=0
for part in 1 2 3 4; do
  count=$(sqlite3 "part-$part.db" 'SELECT count(*) FROM solos')
  [ "$count" -gt 0 ] || fail "part $part is empty"
  sum=$((sum + count))
done
[ "$sum" = 49 ] || fail "the parts have $sum solos together"
[ -z "$(sound merged.db)" ] || fail "the merged database is not sound"

"$program" merge part-4.db part-2.db part-3.db part-1.db -o other-order.db >/dev/null
rows other-order.db | cmp -s - whole || fail "the order of merging matters"
"$program" merge part-1.db part-1.db merged.db -o twice.db >/dev/null
rows twice.db | cmp -s - whole || fail "merging a part twice matters"

# Tasks need not be all submitted at once, nor in order.
for task in 3 1 2; do
  INSIDELINE=$program SLURM_ARRAY_TASK_ID=$task SLURM_ARRAY_TASK_COUNT=1 SLURM_CPUS_PER_TASK=1 \
    "$scripts/survey-array.sbatch" 3 solos parts >said
  [ "$(grep -vc '^  ' said)" = 1 ] ||  # but for the files that could not be used
     fail "a part says more than a line: $(cat said)"
  grep -q "^Part $task of 3: " said || fail "a part does not say which it is: $(cat said)"
done
"$program" merge parts/part-*.db -o from-slurm.db >/dev/null
rows from-slurm.db | cmp -s - whole || fail "the Slurm script's parts do not add up"

refused() {  # TASK ARGUMENT...: the script ends with 2 and starts nothing
  task=$1
  shift
  status=0
  INSIDELINE=$program SLURM_ARRAY_TASK_ID=$task "$scripts/survey-array.sbatch" "$@" >said 2>&1 || status=$?
  [ "$status" = 2 ] || fail "the script takes task $task of: $*: $(cat said)"
  [ ! -e refused ] || fail "something was made for task $task of: $*"
}
refused 4 3 solos refused
refused 0 3 solos refused
refused '' 3 solos refused
refused 1 solos refused
refused 1 solos refused --strict
