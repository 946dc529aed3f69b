insideline analyze "$DATA/two_bars.musicxml" --part Oboe
