insideline analyze "$DATA/two_bars.musicxml" --changes-pitch sideways
