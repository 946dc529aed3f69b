echo text > notes
insideline analyze "$DATA/two_bars.musicxml" --csv fine.csv --json notes/solo.json
