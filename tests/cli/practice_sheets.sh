#!/bin/sh
# practice_sheets.sh PROGRAM CORPUS FOLDER
#
# Writes practice sheets of every kind into FOLDER, where a general engraver reads them for comparison.
set -eu

program=$1
changes=$2/lantern-street.changes
folder=$3
mkdir -p "$folder"

sheet() {  # name, options of drill
  name=$1
  shift
  "$program" drill --changes "$changes" -o "$folder/$name.musicxml" "$@" >/dev/null
}

sheet nearest
sheet common-tones --common-tones --seed 3
sheet down-in-triplets --arpeggios down --rhythm triplets
sheet inversions-for-tenor --arpeggios up --inversion every --choruses 2 --range tenor-sax --written
sheet cells-three-over-four --cell "7 3 5" --rhythm three-over-four
sheet guide-tones --guide-tones one
sheet guide-tones-in-two-voices --guide-tones two
sheet enclosed-thirds --enclose-thirds
sheet straight-down --straight-down --rhythm quarters
sheet two-tones-off-the-beat --tones-a-bar 2 --rhythm off-beat
sheet through-the-keys-for-alto --section B --all-keys half-steps --range alto-sax --written
sheet all-keys --bars 1-4 --arpeggios up --all-keys --range C2-C7
"$program" drill --changes "$changes" -o "$folder/all-keys.mid" --bars 1-4 --arpeggios up --all-keys --range C2-C7 >/dev/null
