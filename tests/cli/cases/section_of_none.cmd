insideline analyze "$CORPUS/ropewalk.musicxml" --section B
