cp "$DATA/two_bars.musicxml" SOLO.MUSICXML
insideline changes SOLO.MUSICXML
