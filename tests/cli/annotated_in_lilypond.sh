#!/bin/sh
# annotated_in_lilypond.sh PROGRAM PIECE WORK_FOLDER: the labels in an annotated score stand under their own notes for a
# reader that counts syllables, also behind grace notes. musicxml2ly comes with LilyPond.
set -eu
program=$1 piece=$2 work=$3
command -v musicxml2ly >/dev/null || { echo "skipped: musicxml2ly is not installed (Debian package lilypond)"; exit 77; }
mkdir -p "$work"
"$program" analyze "$piece" --annotated "$work/labelled.musicxml" >/dev/null 2>&1
musicxml2ly "$work/labelled.musicxml" -o "$work/labelled.ly" >/dev/null 2>&1

# Notes that take a syllable, in order: the degree under each, "skip" for the end of a tie.
tr -d '\n' <"$work/labelled.musicxml" | sed 's/<note\([ >]\)/\n<note\1/g; s/<\/note>/<\/note>\n/g' |
  grep '^<note[ >]' | grep -v '<rest\|<chord\|<grace' |
  sed 's/.*<lyric[^>]*name="degrees">.*<text>\([^<]*\)<\/text>.*/\1/; s/^<note.*/skip/; s/&#187;/»/; s/&#171;/«/' >"$work/expected"
sed -n '/Lyrics[A-Za-z]* = *\\lyricmode/,/}/p' "$work/labelled.ly" | tr '\n' ' ' |
  sed 's/.*ignoreMelismata = ##t//; s/}.*//' | grep -o '"[^"]*"\|\\skip1\|[^ "\\]\+' |
  sed 's/^"\(.*\)"$/\1/; s/\\skip1/skip/' >"$work/found"
grep -q '<grace' "$work/labelled.musicxml" || { echo "the piece has no grace note"; exit 1; }
diff "$work/expected" "$work/found"
echo "$(wc -l <"$work/found") notes, each with its label"
