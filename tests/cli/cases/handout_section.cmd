insideline handout "$CORPUS/lantern-street.musicxml" --changes "$CORPUS/lantern-street.changes" --section B --ly - | grep -e letter -e described
