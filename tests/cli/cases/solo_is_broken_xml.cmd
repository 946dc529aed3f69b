head -n 9 "$DATA/two_bars.musicxml" > solo.musicxml
insideline analyze solo.musicxml --json solo.json
