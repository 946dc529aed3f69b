insideline analyze "$CORPUS/ropewalk.musicxml"
