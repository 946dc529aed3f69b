insideline analyze "$CORPUS/lantern-street.musicxml" --changes "$CORPUS/lantern-street.changes" --explain 10
