TERM=xterm insideline analyze "$DATA/two_bars.musicxml" | head -n 2
