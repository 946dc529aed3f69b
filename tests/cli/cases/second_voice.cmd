insideline analyze "$DATA/../../io/data/two_voices.musicxml" --voice 2 --bars --changes "$CORPUS/lantern-street.changes"
