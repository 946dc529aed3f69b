insideline analyze "$DATA/two_bars.musicxml" --json missing/solo.json
