insideline analyze "$CORPUS/ropewalk.musicxml" --section bridge
