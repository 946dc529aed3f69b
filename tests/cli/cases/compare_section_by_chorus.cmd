insideline compare "$CORPUS/lantern-street.musicxml" --changes "$CORPUS/lantern-street.changes" --choruses --section "last B" | head -n 6
