insideline analyze "$DATA/two_bars.musicxml" --strict --straight --held-tension 1/2
