insideline handout "$DATA/two_bars.musicxml" --bars 9-x --ly sheet.ly
