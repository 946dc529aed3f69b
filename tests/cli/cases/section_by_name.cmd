insideline analyze "$CORPUS/lantern-street.musicxml" --changes "$CORPUS/lantern-street.changes" --section "B of chorus 2" --bars | head -n 16
