insideline compare "$CORPUS/ropewalk.musicxml"
