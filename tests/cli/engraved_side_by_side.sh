#!/bin/sh
# engraved_side_by_side.sh PROGRAM CORPUS DATA
#
# What several LilyPonds engrave at the same time: the sheets of a class, and the systems inside the page of --html.
# Exits 77, which ctest reports as skipped, where LilyPond is not installed.
set -eu

program=$1
CORPUS=$2
DATA=$3

if ! command -v lilypond >/dev/null; then
  echo "skipped: lilypond is not installed"
  exit 77
fi

work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
cd "$work"

fail() {
  echo "FAILED: $1"
  exit 1
}

same() {  # what, expected, found
  [ "$2" = "$3" ] || fail "$1
expected: $2
found:    $3"
}

"$program" handout "$CORPUS/ropewalk.musicxml" --bars 1-4 --class "alto-sax, trombone" --key -o keys >/dev/null ||
  fail "no answers for a class"
same "the key in concert pitch and for each player" "alto-sax-key.pdf concert-key.pdf trombone-key.pdf" \
  "$(cd keys && echo *)"

# The same systems inside the page of --html, with the notes of the analysis.
"$program" analyze "$DATA/two_bars.musicxml" --html solo.html --score >/dev/null 2>&1 || fail "no page with the score"
grep -q 'aria-label="Engraved score, system 1"' solo.html || fail "the page has no engraved system"
same "engraved notes of the page" 7 "$(grep -o 'id="e[0-9]*"' solo.html | sort -u | wc -l | tr -d ' ')"
if grep -q 'Emmentaler\|<style type' solo.html; then fail "the drawing brought a style of its own"; fi
