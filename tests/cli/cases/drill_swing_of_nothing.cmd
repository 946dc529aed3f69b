insideline drill --changes "$CORPUS/lantern-street.changes" --tones-a-bar 3 --swing 2 -o sheet.mid
