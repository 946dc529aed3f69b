insideline compare "$CORPUS/lantern-street.musicxml" --changes "$CORPUS/lantern-street.changes" --choruses --section C
