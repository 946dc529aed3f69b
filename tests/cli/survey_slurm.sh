#!/bin/sh
# survey_slurm.sh PROGRAM CORPUS DATA SCRIPTS
#
# The job array under a real Slurm scheduler, which this test starts for itself on this machine: all tasks, every other
# task, and one task submitted again alone. The parts must add up to one survey over everything, a line for each.
set -eu
program=$1
CORPUS=$2
DATA=$3
scripts=$4
. "$(dirname "$0")/survey_solos.sh"
PATH=$PATH:/usr/sbin:/sbin
needs sqlite3 munged slurmctld slurmd sbatch sinfo

work=$(mktemp -d)
pids=
stop() {
  for pid in $pids $(cat "$work/munge/pid" 2>/dev/null); do kill "$pid" 2>/dev/null || :; done
  wait
  rm -rf "$work"
}
trap stop EXIT
cd "$work"
chmod 755 "$work"
mkdir state spool munge

skip() {
  echo "skipped: $1"
  exit 77
}

# A scheduler of one machine, with keys, ports and folders of its own.
host=$(hostname -s)
port=$((20000 + $$ % 20000))
head -c 1024 /dev/urandom >munge/key
chmod 600 munge/key
munged --key-file="$work/munge/key" --socket="$work/munge/socket" --pid-file="$work/munge/pid" \
  --log-file="$work/munge/log" --seed-file="$work/munge/seed" --force >munge/said 2>&1 ||
  skip "munged does not start here: $(tail -n 1 munge/said)"
cat >slurm.conf <<CONF
ClusterName=one
SlurmctldHost=$host(127.0.0.1)
AuthInfo=socket=$work/munge/socket
SlurmUser=$(id -un)
SlurmdUser=$(id -un)
SlurmctldPort=$port
SlurmdPort=$((port + 1))
StateSaveLocation=$work/state
SlurmdSpoolDir=$work/spool
SlurmctldPidFile=$work/slurmctld.pid
SlurmdPidFile=$work/slurmd.pid
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SelectType=select/cons_tres
SelectTypeParameters=CR_Core
ReturnToService=2
NodeName=$host NodeAddr=127.0.0.1 CPUs=$(nproc) RealMemory=1100 State=UNKNOWN
PartitionName=all Nodes=$host Default=YES State=UP
CONF
export SLURM_CONF="$work/slurm.conf"
slurmctld -D >slurmctld.said 2>&1 &
pids=$!
slurmd -D >slurmd.said 2>&1 &
pids="$pids $!"
tries=0
until sinfo --noheader --format %T 2>/dev/null | grep -q idle; do
  tries=$((tries + 1))
  [ "$tries" -lt 60 ] || skip "the scheduler does not come up here: $(tail -n 1 slurmd.said) $(tail -n 1 slurmctld.said)"
  sleep 1
done

solos solos 30
"$program" survey solos --db whole.db >/dev/null
rows whole.db >whole

submit() {  # TASKS PARTS-FOLDER
  INSIDELINE=$program sbatch --wait --array="$1" --cpus-per-task=1 --output="$work/said-%a" --export=ALL \
    "$scripts/survey-array.sbatch" 7 solos "$2" >submitted 2>&1 || fail "the array $1 failed: $(cat submitted said-*)"
}

submit 1-7:2 "$work/parts"
[ "$(find parts -name 'part-*.db' | wc -l)" = 4 ] || fail "--array=1-7:2 does not make parts 1, 3, 5 and 7"
submit 2-6:2 "$work/parts"
rm parts/part-3.db
submit 3 "$work/parts"
for part in 1 2 3 4 5 6 7; do
  [ "$(wc -l <"said-$part")" = 1 ] || fail "part $part says more than a line: $(cat "said-$part")"
  grep -q "^Part $part of 7: " "said-$part" || fail "part $part does not say which it is: $(cat "said-$part")"
done
[ "$(sqlite3 parts/part-3.db 'SELECT count(*) FROM solos')" -lt 30 ] || fail "a task submitted again alone takes everything"
"$program" merge parts/part-*.db -o merged.db >/dev/null
rows merged.db | diff - whole >differences || fail "the parts do not add up: $(head -n 5 differences)"
