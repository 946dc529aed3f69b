insideline assess "$DATA/descents_take.mid" --free --changes "$CORPUS/lantern-street.changes" --json take.json
