insideline analyze "$DATA/two_bars.musicxml" --score
