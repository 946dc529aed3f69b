insideline analyze "$DATA/no_chords.musicxml" --json solo.json
