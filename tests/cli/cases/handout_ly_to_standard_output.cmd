insideline handout "$DATA/two_bars.musicxml" --ly - | sed -n '/^\\header/,$p'
