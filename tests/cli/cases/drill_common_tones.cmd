insideline drill --changes "$CORPUS/lantern-street.changes" --common-tones --tones-a-bar 2 --choruses 2 --seed 4 --tempo 90 -o sheet.mid
