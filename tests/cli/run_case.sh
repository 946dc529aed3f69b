#!/bin/sh
# run_case.sh PROGRAM CASE.cmd CORPUS DATA
#
# Runs the shell lines of CASE.cmd in an empty folder, where `insideline` is the program, $CORPUS holds the demo
# pieces and $DATA the test files, and compares exit status, standard output, standard error and the files left
# behind with CASE.expected. With INSIDELINE_APPROVE=1 it writes CASE.expected instead.
set -eu

program=$1
case_file=$2
CORPUS=$3
DATA=$4
expected=${case_file%.cmd}.expected

# There are hundreds of cases, and a process takes as long as the program: as few are started as will do.
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/here"

status=0
(
  cd "$work/here"
  exec env -i PATH="${program%/*}:$PATH" HOME="$work" LC_ALL=C CORPUS="$CORPUS" DATA="$DATA" \
    sh -eu "$case_file" >"$work/out" 2>"$work/err"
) || status=$?

files_left_behind() {
  cd "$work/here"
  for file in * .[!.]*; do
    [ ! -e "$file" ] && [ ! -L "$file" ] || { find . -mindepth 1 | LC_ALL=C sort && return; }
  done
}

# Folders differ from machine to machine: their names are shown instead.
printf 'exit %s\n--- out\n' "$status" >"$work/head"
printf -- '--- err\n' >"$work/between"
{
  cat "$work/head" "$work/out" "$work/between" "$work/err" |
    sed -e "s|$CORPUS|CORPUS|g" -e "s|$DATA|DATA|g" -e "s|$work/here|HERE|g"
  printf -- '--- files\n'
  (files_left_behind)
} >"$work/actual"

if [ "${INSIDELINE_APPROVE:-}" = 1 ]; then
  cp "$work/actual" "$expected"
  echo "approved: $expected"
elif [ ! -f "$expected" ]; then
  echo "$expected is missing; to write it: INSIDELINE_APPROVE=1 ctest -R cli"
  cat "$work/actual"
  exit 1
else
  diff -u "$expected" "$work/actual"
fi
