insideline compare "$CORPUS/ropewalk.musicxml" "$CORPUS/ropewalk.musicxml" --names once,again | sed "/^Every figure/,$ d"
