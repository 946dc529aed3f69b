insideline analyze nothing.musicxml --json solo.json
