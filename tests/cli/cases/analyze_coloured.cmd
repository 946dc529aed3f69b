insideline analyze "$DATA/two_bars.musicxml" --bars --color always
