insideline analyze "$DATA/../../io/data/first_and_second_ending.musicxml" --as-written --bars --changes "$CORPUS/lantern-street.changes"
