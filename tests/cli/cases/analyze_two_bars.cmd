insideline analyze "$DATA/two_bars.musicxml" --bars
