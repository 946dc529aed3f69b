PATH=${PATH%%:*}
insideline analyze "$DATA/two_bars.musicxml" --html solo.html --score
