insideline analyze "$DATA/two_bars.musicxml" --colour never
