PATH=${PATH%%:*}
insideline handout "$DATA/two_bars.musicxml" -o sheet.pdf --ly sheet.ly
