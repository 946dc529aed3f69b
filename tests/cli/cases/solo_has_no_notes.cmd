insideline analyze "$DATA/no_notes.musicxml" --json solo.json
