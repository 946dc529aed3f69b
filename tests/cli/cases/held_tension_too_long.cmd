insideline analyze "$DATA/two_bars.musicxml" --held-tension 9223372036854775807.5
