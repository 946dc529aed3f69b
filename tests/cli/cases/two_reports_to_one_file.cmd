insideline analyze "$DATA/two_bars.musicxml" --json same --csv same
