#!/bin/sh
# practice_sound.sh PROGRAM CORPUS
#
# The sound of a practice sheet, as FluidSynth renders it: as long as its music, not silent, and there whole or not at all.
# Skipped, with a count, where FluidSynth or its sounds are missing.
set -eu

program=$1
changes=$2/lantern-street.changes
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

if ! command -v fluidsynth >/dev/null || ! ls /usr/share/sounds/sf2/*.sf2 >/dev/null 2>&1; then
  echo "skipped: 4 checks of sound, as FluidSynth or a General MIDI sound font is not installed"
  exit 77
fi

"$program" drill --changes "$changes" --tempo 240 --count-in two -o "$work/sheet.mid" --wav "$work/sheet.wav" >"$work/plan"
bytes=$(wc -c <"$work/sheet.wav")
# 18 bars of 4/4 at 240 are 18 seconds, each of 44,100 frames of 4 bytes; the last notes may ring on for some seconds.
if [ "$bytes" -lt $((18 * 176400)) ] || [ "$bytes" -gt $((26 * 176400)) ]; then
  echo "the sound has $bytes bytes, which is not 18 seconds and the last notes"
  exit 1
fi
if [ "$(head -c 4 "$work/sheet.wav")$(tail -c +9 "$work/sheet.wav" | head -c 4)" != RIFFWAVE ]; then
  echo "the sound is no WAV file"
  exit 1
fi
loud=$(tail -c +1000000 "$work/sheet.wav" | head -c 100000 | od -An -v -tx1 | tr -d ' \n0' | wc -c)
if [ "$loud" -lt 1000 ]; then
  echo "the sound is silent"
  exit 1
fi
grep -q 'Turn the volume down before you play sheet.wav' "$work/plan"
if "$program" drill --changes "$changes" -o "$work/other.mid" --wav "$work/no-such-folder/sheet.wav" 2>/dev/null; then
  echo "a folder that is not there was written to"
  exit 1
fi
if [ -e "$work/other.mid" ]; then
  echo "the sheet was written although its sound was not"
  exit 1
fi
