insideline compare "$CORPUS/ropewalk.musicxml" "$DATA/two_bars.musicxml" | sed "/^Every figure/,$ d"
