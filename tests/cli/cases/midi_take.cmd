insideline analyze "$CORPUS/lantern-street-take.mid" --changes "$CORPUS/lantern-street.changes"
