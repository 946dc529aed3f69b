insideline analyze "$CORPUS/lantern-street.musicxml" --changes "$CORPUS/lantern-street.changes" --start-bar 3 | sed -n "/^These changes/,/^$/p"
