insideline analyze "$CORPUS/lantern-street.musicxml" --changes "$CORPUS/lantern-street.changes" --transpose -14 >/dev/null
