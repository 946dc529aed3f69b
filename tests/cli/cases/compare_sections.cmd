insideline compare "$CORPUS/lantern-street.musicxml" --changes "$CORPUS/lantern-street.changes" --sections | sed "/^Every figure/,$ d"
