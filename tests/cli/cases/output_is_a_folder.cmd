mkdir solo.json
insideline analyze "$DATA/two_bars.musicxml" --json solo.json
