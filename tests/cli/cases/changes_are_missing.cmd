insideline analyze "$DATA/no_chords.musicxml" --changes none.changes --json solo.json
