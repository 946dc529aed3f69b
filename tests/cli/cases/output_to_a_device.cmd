insideline analyze "$DATA/two_bars.musicxml" --csv /dev/null | head -n 1
