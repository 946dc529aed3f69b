insideline handout "$DATA/two_bars.musicxml"
