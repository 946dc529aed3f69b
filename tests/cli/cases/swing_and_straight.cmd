insideline analyze "$DATA/two_bars.musicxml" --swing --straight
