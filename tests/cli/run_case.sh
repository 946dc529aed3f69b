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

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
mkdir "$work/bin" "$work/here"
ln -s "$program" "$work/bin/insideline"

status=0
(
  cd "$work/here"
  env -i PATH="$work/bin:$PATH" HOME="$work" LC_ALL=C CORPUS="$CORPUS" DATA="$DATA" \
    sh -eu "$case_file" >"$work/out" 2>"$work/err"
) || status=$?

# Folders differ from machine to machine: show their names instead.
named() { sed -e "s|$CORPUS|CORPUS|g" -e "s|$DATA|DATA|g" -e "s|$work/here|HERE|g" "$1"; }

{
  printf 'exit %s\n' "$status"
  printf -- '--- out\n'
  named "$work/out"
  printf -- '--- err\n'
  named "$work/err"
  printf -- '--- files\n'
  (cd "$work/here" && find . -mindepth 1 | LC_ALL=C sort)
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
