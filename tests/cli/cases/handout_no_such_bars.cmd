insideline handout "$DATA/two_bars.musicxml" --bars 9-16 --ly sheet.ly
