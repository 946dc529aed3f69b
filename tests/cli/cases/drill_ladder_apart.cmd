insideline drill --changes "$CORPUS/lantern-street.changes" --ladder apart --count-in two --click --chords comped --swing 1.6 -o sheet.mid | head -1
