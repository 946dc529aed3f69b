insideline changes "$DATA/two_bars.musicxml" --up 2
