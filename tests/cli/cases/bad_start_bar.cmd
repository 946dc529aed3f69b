insideline analyze "$DATA/two_bars.musicxml" --start-bar one
