insideline handout "$DATA/two_bars.musicxml" --worksheet --key --output sheet.pdf
