insideline analyze "$DATA/two_bars.musicxml" --held-tension long
