insideline analyze "$CORPUS/lantern-street-take.mid" --changes "$CORPUS/lantern-street.changes" --json solo.json --annotated solo.musicxml
